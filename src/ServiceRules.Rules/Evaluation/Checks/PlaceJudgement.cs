using System.Collections.Immutable;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>One comparison with the words for it.</summary>
/// <param name="Compared">The comparison, as findings carry it.</param>
/// <param name="Said">Place and figures in words, in the units of the reading.</param>
/// <param name="Where">The place alone, as people say it.</param>
/// <param name="System">The units of the reading; those that govern the limit where it was read in both.</param>
/// <param name="Notice">Set where the two printed limits would give different verdicts.</param>
internal sealed record PlaceJudgement(
    Comparison Compared,
    string Said,
    string Where,
    UnitSystem System,
    string? Notice
)
{
    /// <summary>Which way it departs; judgements of one place are comparable only where they go the same way.</summary>
    public string Way { get; private init; } = Where;

    /// <summary>Whether a line tells a length there that cannot be, such as a gap below nothing.</summary>
    public bool IsBeyondBound { get; private init; }

    /// <summary>Whether what is known of it reaches to the limit that it breaks, which then is out itself.</summary>
    public bool MayBeAtLimit { get; private init; }

    /// <summary>Whether feelers leave nothing outside but the limit itself, which a rule takes for out.</summary>
    public bool LeavesLimitItself { get; private init; }

    /// <summary>The risk of the verdict in words, where the decision rests on chances; else none.</summary>
    public string? Risk { get; private init; }

    /// <summary>Whether one print alone leaves it unproven, where it was read in the units of both.</summary>
    public bool PrintsPart { get; private init; }

    /// <summary>The largest expanded uncertainty that could prove this limit, where the gauge was weighed against it.</summary>
    public Length? CoarsestGauge { get; private init; }

    /// <summary>What it is that leaves it unproven, where that is not the gauge.</summary>
    public GrownDoubt? Grown { get; private init; }

    /// <summary>Judges what is known at one place against printed limits.</summary>
    public static PlaceJudgement Of(Asked asked, PrintedZone zone, RuleDecision decision)
    {
        var rule = decision.By;
        var system = asked.IsReadInBoth ? zone.Governing : asked.System;
        var own = With(decision, zone.For(system, asked.IsReadInBoth));
        var result = Conformity.Decide(own, asked.Knowledge, rule);
        var byPrints = asked.IsReadInBoth ? ByBothPrints(zone, asked, decision) : [result.Verdict];
        var parts = result.Verdict is not Verdict.Unproven && !byPrints.All(each => each == result.Verdict);
        if (parts)
        {
            result = result with { Verdict = Verdict.Unproven };
        }

        var fitness =
            !parts && result.Verdict == Verdict.Unproven ? Fitness(own, rule, zone.Target, asked) : null;
        var isGauge = fitness?.Outcome == GaugeFitnessOutcome.Unfit;
        var grown = isGauge || fitness is null ? null : GrownBeyond(own, rule, result, asked);
        var reason =
            parts ? PartedReason(asked)
            : isGauge ? FindingReason.GaugeCannotProve
            : grown is not null && result.Reason is ConformityReason.EmptyAcceptanceZone
                ? FindingReason.InsideGuard
            : ReasonOf(result);
        var (verdict, told) = Doubts.Applied(result.Verdict, reason, asked.Doubt);
        var interval = AboveBound(asked) as LengthInterval;
        // A figure for what nobody knows would be read as if somebody did.
        var isUnknown = told is FindingReason.UncertaintyUnknown;
        var compared = new Comparison
        {
            Quantity = asked.Quantity,
            Place = asked.Place,
            IsAtEnd = asked.IsAtEnd,
            ToldIn = system,
            Verdict = verdict,
            Reason = told,
            Value = (asked.Knowledge as MeasuredValue)?.Value,
            AsRead = asked.Corrected?.AsRead,
            KnownLower = interval?.Lower?.Value,
            KnownUpper = interval?.Upper?.Value,
            Uncertainty = isUnknown ? null : result.Expanded?.Value,
            Budget = !isUnknown && asked.Knowledge is MeasuredValue whole ? StatedBudget.Of(whole) : null,
            LowerLimit = own.Lower,
            UpperLimit = own.Upper,
            AcceptLower = isUnknown ? null : result.AcceptanceZone?.Lower,
            AcceptUpper = isUnknown ? null : result.AcceptanceZone?.Upper,
            Target = zone.Target,
            Probability = !isUnknown && result.ConformanceProbability is { } p ? p.Value : null,
            Margin = result.Margin,
        };
        var beyond = BeyondBound(asked);
        return new(
            compared,
            beyond is { } contact ? $"{asked.Said}, {contact}"
                : isUnknown ? $"{asked.Said} {AsWritten(asked, system)}"
                : EitherWay.Of(asked, system) ?? $"{asked.Said} {Wording.Of(AboveBound(asked), system)}",
            asked.Where ?? asked.Said,
            system,
            asked.IsReadInBoth
                ? NoticeOfBoth(zone, byPrints, result.Verdict)
                : NoticeOf(zone, asked, decision, result.Verdict)
        )
        {
            IsBeyondBound = beyond is not null,
            Risk = rule is DecisionRule.Guarded ? null : ChanceWords.Risk(compared),
            CoarsestGauge = fitness?.CoarsestExpanded,
            Grown = told == reason ? grown : null,
            PrintsPart = parts && told == reason,
            MayBeAtLimit =
                verdict is Verdict.NotMet
                && asked.Knowledge.AsInterval() is var reach
                && (
                    (reach.Lower is { IsClosed: true } lower && lower.Value == own.Upper)
                    || (reach.Upper is { IsClosed: true } upper && upper.Value == own.Lower)
                ),
            LeavesLimitItself =
                told is FindingReason.IntervalCrossesLimit
                && decision.LimitItself is LimitItself.Excluded
                && Conformity.Decide(zone.For(system, asked.IsReadInBoth), asked.Knowledge, rule).Verdict
                    is Verdict.Met,
            Way = asked.Way ?? asked.Said,
        };
    }

    /// <summary>The same where what it rests on can show nothing out: then it is open, for the cause that was asked with.</summary>
    public PlaceJudgement LeftOpen(GrownDoubt cause) =>
        this with
        {
            Compared = Compared with { Verdict = Verdict.Unproven, Reason = FindingReason.InsideGuard },
            Grown = cause,
        };

    /// <summary>Doubt that is not the gauge's, where the gauge by itself would have decided or could have.</summary>
    private static GrownDoubt? GrownBeyond(
        ToleranceZone zone,
        DecisionRule rule,
        ConformityResult result,
        Asked asked
    ) =>
        asked.Grown is { } grown
        && (
            result.Reason is ConformityReason.EmptyAcceptanceZone
            || Conformity.Decide(zone, grown.ByGauge, rule).Verdict is not Verdict.Unproven
        )
            ? grown
            : null;

    /// <summary>
    /// What is shown of an interval ends where the quantity does: no gap is less than nothing. Judged is what the readings
    /// tell.
    /// </summary>
    private static Knowledge AboveBound(Asked asked) =>
        asked is { Knowledge: LengthInterval { Lower: { } lower } known, NaturalBound: { } bound }
        && lower.Value < bound
        && LengthInterval.TryCreate(IntervalEnd.Closed(bound), known.Upper, out var possible)
            ? possible
            : asked.Knowledge;

    /// <summary>A gap below nothing is no length: what an end is told as by a line that runs below the bound.</summary>
    private static string? BeyondBound(Asked asked) =>
        asked is { IsAtEnd: true, NaturalBound: { } bound }
        && (asked.Knowledge as MeasuredValue)?.Value < bound
            ? asked.Quantity is MeasuredQuantity.Clearance
                ? "where by the line the blades would touch, or the line does not hold"
                : "where by the line nothing would be left, or the line does not hold"
            : null;

    private static string AsWritten(Asked asked, UnitSystem system) =>
        asked.Knowledge is MeasuredValue measured
            ? Wording.Of(measured.Value, system)
            : $"{Wording.Of(asked.Knowledge, system)}, as the feelers are marked";

    private static GaugeFitness? Fitness(
        ToleranceZone zone,
        DecisionRule rule,
        Length? target,
        Asked asked
    ) =>
        (asked.Grown?.ByGauge ?? asked.Knowledge) is MeasuredValue measured
            ? GaugeFitness.Judge(
                zone,
                measured.Errors,
                rule,
                target,
                // A bound outside the zone says nothing of how far inside a value may lie.
                asked.NaturalBound
                    is { } bound
                && zone.Contains(bound)
                    ? bound
                    : null
            )
            : null;

    /// <summary>A zone of one permitted length has no inside to keep: there the limit itself stays permitted.</summary>
    private static ToleranceZone With(RuleDecision decision, ToleranceZone zone) =>
        zone.With(decision.LimitItself) ?? zone;

    private static string? NoticeOf(PrintedZone zone, Asked asked, RuleDecision decision, Verdict own)
    {
        if (!zone.IsTwofold)
        {
            return null;
        }

        var (otherSystem, read) =
            asked.System is UnitSystem.Inch
                ? (UnitSystem.Metric, "inches")
                : (UnitSystem.Inch, "millimetres");
        var other = Conformity.Decide(With(decision, zone.In(otherSystem)), asked.Knowledge, decision.By);
        return other.Verdict == own
            ? null
            : $"the two printed limits part here; read in {read}, it is held against "
                + $"{ZoneWords.Of(zone.In(asked.System), asked.System)}, not the other print, "
                + $"{ZoneWords.Of(zone.In(otherSystem), otherSystem)}";
    }

    /// <summary>What each print by itself would tell, the metric one first.</summary>
    private static ImmutableArray<Verdict> ByBothPrints(
        PrintedZone zone,
        Asked asked,
        RuleDecision decision
    ) =>
        [
            .. new[] { UnitSystem.Metric, UnitSystem.Inch }.Select(system =>
                Conformity.Decide(With(decision, zone.In(system)), asked.Knowledge, decision.By).Verdict
            ),
        ];

    private static FindingReason PartedReason(Asked asked) =>
        asked.Knowledge is MeasuredValue ? FindingReason.InsideGuard : FindingReason.IntervalCrossesLimit;

    private static string? NoticeOfBoth(PrintedZone zone, ImmutableArray<Verdict> byPrints, Verdict own) =>
        byPrints.All(each => each == own)
            ? null
            : "the two printed limits part here; read in both units: held to both printed limits, "
                + $"{ZoneWords.Of(zone.In(UnitSystem.Metric), UnitSystem.Metric)} and "
                + ZoneWords.Of(zone.In(UnitSystem.Inch), UnitSystem.Inch);

    private static FindingReason ReasonOf(ConformityResult result) =>
        result.Reason switch
        {
            ConformityReason.OutsideGuardedLimits
            or ConformityReason.ProbablyOutside
            or ConformityReason.IntervalOutside => FindingReason.OutOfLimit,
            ConformityReason.InsideGuardBand or ConformityReason.OutsideWithinGuard =>
                FindingReason.InsideGuard,
            ConformityReason.EmptyAcceptanceZone => FindingReason.GaugeCannotProve,
            ConformityReason.IntervalStraddlesLimit or ConformityReason.IntervalUnbounded =>
                FindingReason.IntervalCrossesLimit,
            ConformityReason.ProbabilityBetweenBounds => FindingReason.ProbabilityBetween,
            _ => FindingReason.None,
        };
}
