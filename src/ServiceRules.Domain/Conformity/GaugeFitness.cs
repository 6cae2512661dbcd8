using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Statistics;

namespace ServiceRules.Domain.Conformity;

/// <summary>
/// Whether a gauge can prove a limit at all, before anything is read with it: whether some value exists that
/// would be met under the decision rule. Against a two-sided zone that value is the middle; against one limit
/// it is the declared target, or else the natural bound of the quantity (0 for a gap). With neither, a
/// one-sided limit is not judged.
/// </summary>
public sealed record GaugeFitness
{
    private GaugeFitness(
        GaugeFitnessOutcome outcome,
        ExpandedUncertainty expanded,
        Length? room,
        Length? coarsest
    )
    {
        Outcome = outcome;
        Expanded = expanded;
        Room = room;
        CoarsestExpanded = coarsest;
    }

    /// <summary>What came out.</summary>
    public GaugeFitnessOutcome Outcome { get; }

    /// <summary>The gauge's expanded uncertainty U.</summary>
    public ExpandedUncertainty Expanded { get; }

    /// <summary>
    /// The distance a guard may take: half the tolerance, or from the limit to target or natural bound.
    /// None when not judged.
    /// </summary>
    public Length? Room { get; }

    /// <summary>
    /// The largest U, at the same degrees of freedom, with which the limit could be proven, rounded down to a
    /// whole quantum; none when not judged or when the rule takes no account of uncertainty.
    /// </summary>
    public Length? CoarsestExpanded { get; }

    /// <summary>Judges a gauge against a limit.</summary>
    /// <param name="zone">The limits.</param>
    /// <param name="errors">The errors of one reading with the gauge.</param>
    /// <param name="rule">The decision rule that will be used.</param>
    /// <param name="target">The declared target, if the limit has one.</param>
    /// <param name="naturalBound">The value the quantity cannot pass, such as 0 for a gap, if it has one.</param>
    public static GaugeFitness Judge(
        ToleranceZone zone,
        IndependentErrors errors,
        DecisionRule rule,
        Length? target,
        Length? naturalBound
    )
    {
        var expanded = errors.Expanded;
        if (RoomOf(zone, target, naturalBound) is not { } room)
        {
            return new(GaugeFitnessOutcome.NotJudged, expanded, null, null);
        }

        if (rule is DecisionRule.Simple)
        {
            return new(GaugeFitnessOutcome.Fit, expanded, room, null);
        }

        var coarsest = Coarsest(zone, room, errors, rule);
        var fit = expanded.Value <= coarsest;
        return new(
            fit ? GaugeFitnessOutcome.Fit : GaugeFitnessOutcome.Unfit,
            expanded,
            room,
            Length.Max(Length.Zero, coarsest)
        );
    }

    private static Length? RoomOf(ToleranceZone zone, Length? target, Length? naturalBound)
    {
        if (zone.Width is { } width)
        {
            return width * 0.5m;
        }

        return (target ?? naturalBound) is { } reachable
            ? Length.Max(Length.Zero, zone.MarginOf(reachable))
            : null;
    }

    private static Length Coarsest(
        ToleranceZone zone,
        Length room,
        IndependentErrors errors,
        DecisionRule rule
    )
    {
        var coverageFactor = errors.Expanded.CoverageFactor;
        var expanded = rule switch
        {
            DecisionRule.Guarded guarded => room.Millimetres / guarded.Factor,
            DecisionRule.GuardedToRisk target when errors.FactorOf(target.Quantile) is var guarded and > 0 =>
                WidestGuard(zone, room) * coverageFactor / guarded,
            DecisionRule.GuardedToRisk => StandardUncertainty.Largest.Millimetres,
            DecisionRule.ByProbability bounds => room.Millimetres
                * coverageFactor
                / errors.FactorOf(known => QuantileFor(zone, (double)bounds.MetFrom.Value, known)),
            _ => throw new InvalidOperationException("decision rules are a closed family"),
        };
        var quantum = StandardUncertainty.Quantum.Millimetres;
        var whole = decimal.Floor(expanded / quantum) * quantum;
        // A guard that takes all the room leaves the limit itself, which must then be permitted.
        var leavesNothing =
            zone.LimitItself is LimitItself.Excluded
            && rule is DecisionRule.Guarded { Factor: var factor }
            && whole * factor == room.Millimetres;
        return Length.FromMillimetres(leavesNothing ? whole - quantum : whole);
    }

    /// <summary>The widest guard to a risk, which is rounded up to a quantum; short of the room where the limit is out.</summary>
    private static decimal WidestGuard(ToleranceZone zone, Length room) =>
        zone.LimitItself is LimitItself.Excluded
            ? StandardUncertainty.RoundUp(room.Millimetres) - StandardUncertainty.Quantum.Millimetres
            : room.Millimetres;

    /// <summary>How many u the best value must stand off each limit; bounded away from zero.</summary>
    private static decimal QuantileFor(ToleranceZone zone, double metFrom, DegreesOfFreedom degreesOfFreedom)
    {
        var tail = zone.Width is null ? 1 - metFrom : (1 - metFrom) / 2;
        return (decimal)Math.Clamp(new StandardDistribution(degreesOfFreedom).UpperQuantile(tail), 1e-6, 1e6);
    }
}
