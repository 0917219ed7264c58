"""Services that share coax: out of each other's way, and out of the operator's drop."""
