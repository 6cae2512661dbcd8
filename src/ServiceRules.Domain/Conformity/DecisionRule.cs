using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Statistics;

namespace ServiceRules.Domain.Conformity;

/// <summary>How knowledge with uncertainty is turned into a verdict. A closed family of four.</summary>
public abstract record DecisionRule
{
    private DecisionRule() { }

    /// <summary>
    /// The default: guarded with the full expanded uncertainty. Met and not met are each proven
    /// (ISO 14253-1 principle; full-U guarding as in ILAC-G8:09/2019, 4.2.3).
    /// </summary>
    public static DecisionRule FullGuard { get; } = new Guarded(1m);

    /// <summary>Guarded with 0.825 U, 1.65 u for k = 2: at least 95 % conformance probability (ISO 14253-1:2017).</summary>
    public static DecisionRule NinetyFivePercentGuard { get; } = new Guarded(0.825m);

    /// <summary>No guard: the reading alone decides (ILAC-G8:09/2019, 4.2.1).</summary>
    public static DecisionRule Unguarded { get; } = new Simple();

    /// <summary>Met from a conformance probability of 0.95, not met from 0.05 downwards.</summary>
    public static ByProbability NinetyFiveToFive { get; } = new(Probability.Of(0.95m), Probability.Of(0.05m));

    /// <summary>
    /// Guard g = r·U. Met: inside the closed acceptance zone, the limits drawn in by g. Not met: strictly
    /// outside the limits widened by g. Else unproven.
    /// </summary>
    public sealed record Guarded : DecisionRule
    {
        /// <summary>The largest r that is taken: the 6 sigma row of the guard-band table in ILAC-G8:09/2019.</summary>
        public const decimal LargestFactor = 3m;

        /// <summary>A guarded rule with its factor.</summary>
        /// <param name="factor">r, above 0 and at most <see cref="LargestFactor"/>; no guard at all is <see cref="Simple"/>.</param>
        /// <exception cref="ArgumentOutOfRangeException">The factor is out of range.</exception>
        public Guarded(decimal factor)
        {
            ArgumentOutOfRangeException.ThrowIfNegativeOrZero(factor);
            ArgumentOutOfRangeException.ThrowIfGreaterThan(factor, LargestFactor);
            Factor = factor;
        }

        /// <summary>r, the share of the expanded uncertainty that guards each limit.</summary>
        public decimal Factor { get; }
    }

    /// <summary>
    /// Guard from a target risk (JCGM 106:2012, 8.3.2): so wide that a value on the acceptance limit is beyond the tolerance
    /// limit with just this probability, g = q·u, q the quantile of normal or t. Met, not met and unproven as under
    /// <see cref="Guarded"/>. Each limit is guarded for itself; in a zone so narrow that both matter the risk is at most twice
    /// the target.
    /// </summary>
    public sealed record GuardedToRisk : DecisionRule
    {
        private const int Decimals = 10;

        /// <summary>A rule guarded to a risk.</summary>
        /// <param name="risk">The largest specific consumer's risk at a limit: above 0 and at most 0.5.</param>
        /// <exception cref="ArgumentOutOfRangeException">The risk is out of range.</exception>
        public GuardedToRisk(Probability risk)
        {
            ArgumentOutOfRangeException.ThrowIfNegativeOrZero(risk.Value, nameof(risk));
            ArgumentOutOfRangeException.ThrowIfGreaterThan(risk.Value, 0.5m, nameof(risk));
            Risk = risk;
        }

        /// <summary>The largest specific consumer's risk at a limit.</summary>
        public Probability Risk { get; }

        /// <summary>How many u the guard is: the quantile of the risk, rounded to ten decimals.</summary>
        internal decimal Quantile(DegreesOfFreedom degreesOfFreedom) =>
            Math.Max(
                0m,
                Math.Round(
                    (decimal)new StandardDistribution(degreesOfFreedom).UpperQuantile((double)Risk.Value),
                    Decimals
                )
            );
    }

    /// <summary>Met: inside the zone, as the zone permits its limits. Not met: outside. Uncertainty plays no part.</summary>
    public sealed record Simple : DecisionRule;

    /// <summary>
    /// By the probability of conformance p (JCGM 106:2012, 7): met if p is at least one bound, not met if p is
    /// at most the other, else unproven.
    /// </summary>
    public sealed record ByProbability : DecisionRule
    {
        /// <summary>A probability rule with its two bounds.</summary>
        /// <param name="metFrom">Met from this probability on; above <paramref name="notMetUpTo"/>.</param>
        /// <param name="notMetUpTo">Not met up to this probability.</param>
        /// <exception cref="ArgumentException">The bounds are not in order.</exception>
        public ByProbability(Probability metFrom, Probability notMetUpTo)
        {
            if (metFrom <= notMetUpTo)
            {
                throw new ArgumentException(
                    $"met from `{metFrom}` does not lie above not met up to `{notMetUpTo}`",
                    nameof(metFrom)
                );
            }

            MetFrom = metFrom;
            NotMetUpTo = notMetUpTo;
        }

        /// <summary>Met from this probability of conformance on.</summary>
        public Probability MetFrom { get; }

        /// <summary>Not met up to this probability of conformance.</summary>
        public Probability NotMetUpTo { get; }

        /// <summary>
        /// What is taken to lie inside an interval; without a declared model an interval has no probability but 1 and 0.
        /// </summary>
        public IntervalModel Intervals { get; init; }
    }
}
