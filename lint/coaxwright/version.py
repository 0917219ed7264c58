"""The version of the program; nothing else, so that asking for it costs nothing."""

VERSION = "0.1.0"
