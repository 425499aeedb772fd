"""The version of the tool and of the language it reads; the package is built with this number."""

VERSION = "0.1.0"
LANGUAGE = 1
