"""Where files lie on Linux is told without platformdirs, and is the same that platformdirs tells."""

from __future__ import annotations

import sys
from pathlib import Path

import platformdirs
import pytest

from stockroom import paths


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere platformdirs itself is asked")
@pytest.mark.parametrize("named", [None, "", "/srv/kept", "relative", " /spaced", "~/of-home"])
def test_the_folders_are_those_that_platformdirs_names(named: str | None, monkeypatch: pytest.MonkeyPatch) -> None:
    """XDG Base Directory Specification 0.8: a variable that is not an absolute path is ignored."""
    for variable in ("XDG_DATA_HOME", "XDG_CONFIG_HOME", "XDG_STATE_HOME"):
        monkeypatch.delenv(variable, raising=False)
        if named is not None:
            monkeypatch.setenv(variable, named)
    for variable in ("STOCKROOM_DB", "STOCKROOM_SETTINGS"):
        monkeypatch.delenv(variable, raising=False)
    expected = {
        paths.database_path(None, None): Path(platformdirs.user_data_dir("stockroom", appauthor=False), "stockroom.db"),
        paths.settings_path(): Path(platformdirs.user_config_dir("stockroom", appauthor=False), "settings.toml"),
        paths.state_folder(): Path(platformdirs.user_state_dir("stockroom", appauthor=False)),
    }
    assert all(ours == theirs for ours, theirs in expected.items())
