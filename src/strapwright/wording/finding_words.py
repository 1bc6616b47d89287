"""Every code of a finding and what turns it into words."""

from __future__ import annotations

from collections.abc import Mapping

from strapwright.wording.at_bench.finish_words import FINISH_WORDS
from strapwright.wording.at_bench.tool_change_words import TOOL_CHANGE_WORDS
from strapwright.wording.at_bench.twist_words import TWIST_WORDS
from strapwright.wording.bar_words import BAR_WORDS
from strapwright.wording.bend_finding_words import BEND_WORDS
from strapwright.wording.drawings.laying_out_words import LAYING_OUT_WORDS
from strapwright.wording.jam_words import JAM_WORDS
from strapwright.wording.limits_and_weights.pump_words import PUMP_WORDS
from strapwright.wording.limits_and_weights.weight_words import WEIGHT_WORDS
from strapwright.wording.member_words import MEMBER_WORDS
from strapwright.wording.order_words import ORDER_WORDS
from strapwright.wording.part_words import PART_WORDS
from strapwright.wording.press_words import PRESS_WORDS
from strapwright.wording.shop_log.doubt_words import DOUBT_WORDS
from strapwright.wording.shop_log.learned_note import LEARNED_WORDS
from strapwright.wording.slip_words import SLIP_WORDS
from strapwright.wording.words import Teller

WORDS: Mapping[str, Teller] = {
    **PART_WORDS,
    **BAR_WORDS,
    **BEND_WORDS,
    **JAM_WORDS,
    **FINISH_WORDS,
    **TOOL_CHANGE_WORDS,
    **TWIST_WORDS,
    **PRESS_WORDS,
    **MEMBER_WORDS,
    **WEIGHT_WORDS,
    **PUMP_WORDS,
    **LAYING_OUT_WORDS,
    **ORDER_WORDS,
    **SLIP_WORDS,
    **DOUBT_WORDS,
    **LEARNED_WORDS,
}
