using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Domain.Conformity;

/// <summary>A verdict on one limit with all that a finding shows beside it.</summary>
public sealed record ConformityResult
{
    /// <summary>Met, not met or unproven.</summary>
    public required Verdict Verdict { get; init; }

    /// <summary>Why.</summary>
    public required ConformityReason Reason { get; init; }

    /// <summary>The limits judged against.</summary>
    public required ToleranceZone Zone { get; init; }

    /// <summary>What was known.</summary>
    public required Knowledge Knowledge { get; init; }

    /// <summary>The rule that decided.</summary>
    public required DecisionRule Rule { get; init; }

    /// <summary>g = r·U under a guarded rule, or what its target risk asks; none where the rule has no guard or the knowledge is an interval.</summary>
    public Length? Guard { get; init; }

    /// <summary>
    /// The values that would be met: the zone drawn in by the guard. None when it is empty, under a
    /// probability rule, or for interval knowledge.
    /// </summary>
    public ToleranceZone? AcceptanceZone { get; init; }

    /// <summary>The expanded uncertainty of a measured value; none for an interval.</summary>
    public ExpandedUncertainty? Expanded { get; init; }

    /// <summary>
    /// The probability that the true value is within the limits. For an interval it is 1 or 0 when the
    /// interval settles it, and otherwise none, unless the rule declares a model of what lies inside an interval.
    /// </summary>
    public Probability? ConformanceProbability { get; init; }

    /// <summary>
    /// Distance to the nearest limit, positive inside. For an interval: what is guaranteed when met or
    /// unproven (the worst end), and the least it is out by when not met; none where an end is missing.
    /// </summary>
    public Length? Margin { get; init; }

    /// <summary>Whether no reading with this uncertainty could prove this limit under this rule.</summary>
    public bool CannotBeProven => Guard is not null && AcceptanceZone is null;
}
