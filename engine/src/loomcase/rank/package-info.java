/**
 * From evidence to ranked suspects with their reasons.
 *
 * <p><b>In:</b> a circuit with its hypotheses and predictions, and {@link loomcase.rank.Evidence}: codes seen with state and
 * count, operating points looked at, tests, work done before. <b>Out:</b> a {@link loomcase.rank.Ranking}. Start reading at {@link
 * loomcase.rank.Ranker}; the likelihood of codes, seen and not seen, is derived in {@code Likelihood}.
 *
 * <p><b>Method.</b> Bayes over singles, common causes and pairs: posterior odds are prior odds times the likelihood ratio of
 * every code against a healthy engine. Which neighbours a common cause hit, and which two faults go together, is searched
 * for with the codes seen as guide; what is exact and what is bounded there stands in {@code SubsetSearch} and {@code
 * PairSearch}. Hypotheses that predict alike form one group, because no code can tell them apart.
 *
 * <p><b>Brought in.</b> An engine with codes is here because a fault showed some, or, seldom, for old codes only. So what
 * explains none of the codes seen, "nothing is wrong" among it, weighs less by the same factor; see {@code Complaint}.
 *
 * <p><b>All pairs.</b> Two faults that meet nowhere electrically give the sum of what each does, which needs no joint
 * solve; no pair fits better than every code at its best. {@code AllPairs} solves the rest jointly in the order of that
 * bound until nothing left can be among the best; the proof stands there. {@link loomcase.rank.Ranker#rankWithAllPairs}
 * asks for it. A pair takes the leaders of two groups: faults that show nothing alone stand behind "nothing" and are in no
 * pair, so two that show only together (both of two grounds open) are not found.
 *
 * <p><b>Limits.</b> Codes are independent given the hypothesis, apart from masks and the come-and-go of an intermittent
 * fault. Three independent faults at once are not weighed. Grouping follows the best member, so two members of a group may
 * differ by twice the tolerance.
 *
 * <p><b>Must not know:</b> money, screens.
 */
package loomcase.rank;
