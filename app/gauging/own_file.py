"""The person's own file of measured fittings, beside the settings: a new plan is offered what stands in it."""

from __future__ import annotations

import contextlib
import logging
from pathlib import Path

from app.settings import SettingsFile
from engine.plan.own_fittings import MOST_BYTES, OwnFittings, OwnFittingsError, dumps, loads
from engine.plan.storing import store
from engine.trade.fittings import measured_leg

NAME = "fittings.json"

log = logging.getLogger(__name__)


class OwnFittingsFile:
    """Reads and keeps the file. One that can't be used is left where it is until something is kept; then put aside."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.fault = ""

    def read(self) -> OwnFittings:
        """What was measured before; nothing where there is no file, or none that can be used, which `fault` tells."""
        self.fault = ""
        try:
            with self.path.open("rb") as file:
                own = loads(file.read(MOST_BYTES + 1))
        except FileNotFoundError:
            return OwnFittings()
        except OSError as error:
            self.fault = f"{self.path} can't be read: {(error.strerror or str(error)).lower()}"
        except OwnFittingsError as error:
            self.fault = f"{self.path} can't be used: {error}"
        else:
            known = tuple(row for row in own.takeoffs if measured_leg(row) is not None)
            return OwnFittings(own.maker, known)
        log.info("%s", self.fault)
        return OwnFittings()

    def keep(self, own: OwnFittings) -> None:
        """Write the file, whole or not at all. OSError when the system refuses, OwnFittingsError for an odd name."""
        raw = dumps(own)
        self.path.parent.mkdir(parents=True, exist_ok=True)
        if self.fault:
            with contextlib.suppress(OSError):
                self.path.replace(self.path.with_suffix(".unreadable.json"))
        store(raw, self.path)
        self.fault = ""


def own_file(settings: SettingsFile) -> OwnFittingsFile:
    """The file beside these settings."""
    return OwnFittingsFile(settings.path.with_name(NAME))
