"""The operators: one file for each family of mistakes, each knowing documents and nothing of the rules that are to find them."""

from __future__ import annotations
