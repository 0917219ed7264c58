"""What keeps surges out: ground blocks and protectors, at each point of entrance and near antennas."""
