"""What every plan set says before anything else."""

from __future__ import annotations

CAUTIONS: tuple[tuple[str, str], ...] = (
    (
        "An aid to planning, not a design.",
        "Get the permit first, and let nothing be covered before the inspector has seen it. The code as your place "
        "adopted and changed it decides, and so does its official; these sheets decide nothing.",
    ),
    (
        "Ask whether you may do the work yourself.",
        "Some places let only licensed people do plumbing; others let an owner work only on the house they live in.",
    ),
    (
        "Leave engineered wood alone.",
        "No hole and no notch in an I-joist, a truss, laminated veneer or glued laminated lumber unless its maker or "
        "an engineer allows that very cut in writing.",
    ),
    (
        "Sewer gas poisons and burns.",
        "Every fixture needs a trap with its full seal and a vent that keeps it there. Cap every open stub, even for a "
        "short break.",
    ),
    (
        "Hot water scalds.",
        "Limit what comes out at tubs and showers to 120 °F with a valve made for it, and check with a thermometer.",
    ),
    (
        "Keep drinking water apart.",
        "Air gaps and backflow preventers where the code asks for them; never a joint, even one with a valve, between "
        "drinking water and waste, rain or untreated water.",
    ),
    (
        "Primer and cement give off harmful vapour that catches fire.",
        "Work with the wind through, no flame and no spark, gloves on, as the can's label says.",
    ),
    (
        "Never test plastic drains with air.",
        "A plastic fitting under compressed air bursts in splinters. Test with water to the height that your office "
        "asks for.",
    ),
    (
        "Water freezes under a floor.",
        "Pipes over an open or vented space need insulation and, where winters are hard, heat; also traps, and the "
        "drain where it leaves.",
    ),
)
"""Each caution: a few words that say it, and what follows from it."""
