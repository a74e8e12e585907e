"""What can be asked of the fit: one door."""

from yardapp.fit.services.in_columns import Asked
from yardapp.fit.services.keeping import KeptVerdict, keep_verdict, kept_of_drive, kept_of_propeller, kept_verdict
from yardapp.fit.services.mapping import DriveMap, Spot, map_of
from yardapp.fit.services.pairing import Pairing, drive_figures, judge, pairing, propeller_by_tag, propeller_figures
from yardapp.fit.services.pairs import Pairs, StockPair, pair, pairs_in_stock
from yardapp.fit.services.stock import RankedPropeller, Stock, stock_for
from yardapp.fit.services.takers import RankedDrive, Takers, drives_for
from yardapp.fit.services.trying import Tried, log_tried, try_size
from yardapp.fit.verdict import RULES
from yardapp.fit.verdict import judge as judge_figures

__all__ = [
    "RULES",
    "Asked",
    "DriveMap",
    "KeptVerdict",
    "Pairing",
    "Pairs",
    "RankedDrive",
    "RankedPropeller",
    "Spot",
    "Stock",
    "StockPair",
    "Takers",
    "Tried",
    "drive_figures",
    "drives_for",
    "judge",
    "judge_figures",
    "keep_verdict",
    "kept_of_drive",
    "kept_of_propeller",
    "kept_verdict",
    "log_tried",
    "map_of",
    "pair",
    "pairing",
    "pairs_in_stock",
    "propeller_by_tag",
    "propeller_figures",
    "stock_for",
    "try_size",
]
