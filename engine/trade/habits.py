"""What stores stock and hands do as a rule: common practice, no source, in one place."""

CLOSET_EXTRAS = ("closet_bolts", "flange_screws", "closet_seal")
"""What goes with every closet flange."""

LARGEST_TUBULAR = 1.5
"""The largest tubular trap of sinks and lavatories, nominal inches."""

LEAST_STOCKED_DRAIN = 1.5
"""The smallest drain pipe that stores stock; 1-1/4 is to be had as traps and adapters, nominal inches."""

SHOWING = 0.75
"""Pipe showing between two hubs, for the hand to turn it by, inches."""

SAW = 1.0 / 16.0
"""How true a hand cut comes, inches."""
