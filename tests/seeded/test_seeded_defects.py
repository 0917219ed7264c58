SEEDS = ()
