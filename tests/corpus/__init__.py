"""Questions as beginners type them, each with the outcome it must have; the yardstick for reading plain words.

Shape. One JSON object a line in `questions_*.jsonl`, a file for each split:

    id       "d001"..., "h001"..., "s001"..., "t001"..., a letter for each split
    text     what the asker typed, typos and all
    intent   which question it is (fragrance_for_wax, split_total, unsafe, ...; `test_corpus.py` lists them)
    expect   answerable    false: the assistant must ask back or decline, and may give no answer
             missing       what it should ask for; naming any one of them is right. Empty when it should decline
             numbers       each {what, value, unit, tol, calc}: all of them must be among the numbers given
             alternatives  only where the words leave something open: what each reading would give.
                           When `answerable` is true and `numbers` is empty, all of these must be given
             note          what the question is about
    given    the amounts that stand in the text, for scoring the reading of amounts alone. Densities, money, lengths,
             ratios and counts are not amounts here. `optional` ones cost nothing when not found; `parts` are the
             pieces of a composite ("1 lb 4 oz"), which may be found instead of the whole

How it was written. By hand, in two separate rounds, one a split, by an author who had not seen the code that reads
text, so that neither follows the other. The second set came later, from another author who had seen neither that code
nor the questions of the first two; from s268 on it has longer stories, with more in them than matters. The third set is
in the voices of forty invented askers, a few questions each; from t279 on it has such stories too. Its author had seen
neither the code nor the other sets, but for a few rows of the first, looked up for their shape. Every value comes
from its `calc`, a plain arithmetic expression that `arithmetic.py` works out with the legal definitions of the units.
Everybody and everything in the texts is invented.

Conventions that an answer cannot know by itself
- A load is a percent of the wax unless the words say otherwise; a total or finished weight with a load and no base
  named is `ambiguous_basis`: ask which.
- An ounce of a liquid, or of a jar's or bottle's size, may be a volume: `ambiguous_ounces`. "By weight", "weighed" or
  "on the scale" settles it, so does a rate such as "1 oz per pound"; ounces of solid wax are weight.
- Fluid measures are US ones unless the words say imperial or UK. Water is taken as 1 g/ml.
- Spare and spillage are melted with their share of fragrance.
- A load of 25 % or more, solvents, water in hot wax, sealed vessels, overheating and leaving hot wax are `unsafe`.
- The rounding error of a scale is half its step.
These are common practice in the trade, no source, but for the units.

How the splits are used. Each file was only scored at first and has been opened for improving since, so its figure
measures no unseen text any more. Blind, they gave, in the order they were written: 0.81 (held-out), 0.75 (second),
0.71 (third), 0.78 (fourth), 0.78 (fifth), 0.71 (sixth); after the first six had been worked through, 0.92 (seventh),
0.84 (eighth) and 0.85 (ninth); after those too, 0.92 (tenth), with 1 dangerous answer of 235. Whoever improves the
reading writes a fresh set first and leaves it unopened until the work is done.
`score.py` scores whole answers, `amounts.py` the amounts found in a text.
"""
