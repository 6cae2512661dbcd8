using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Bench;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>What has to be read again: because it is not proven, or because something is about to be turned.</summary>
internal static class ReadAgain
{
    /// <summary>The remedy of an unproven outcome: where to read again, and why.</summary>
    public static Remedy For(CheckOutcome outcome, MeasuredQuantity quantity, UnitPlaces places)
    {
        if (!places.Obstacles.IsEmpty)
        {
            return new Remedy.ReadAgain(
                quantity,
                [.. places.Obstacles.Select(obstacle => obstacle.Place)],
                outcome.Reason is FindingReason.Conflicting
                && places.Obstacles.FirstOrDefault(each => each.IsUnturned) is { } unturned
                    ? unturned.IsGapBesideContact
                        ? Contradiction.WhatSettlesAGap
                        : Contradiction.WhatSettlesIt
                    : Why(outcome.Reason)
            );
        }

        // Nobody can put a gauge on an extrapolated end: where only ends are open, every station is read again.
        var read = places.Usable.Select(place => UnitPlaces.Name(place.Station, place.Blade)).ToList();
        var open = Open(outcome, places).ConvertAll(place => UnitPlaces.Name(place.Station, place.Blade));
        if (
            outcome.Reason is FindingReason.UncertaintyUnknown
            && open.Count == 0
            && places.ProvesNothing() is { } unknown
        )
        {
            return unknown with { Why = Because(outcome, quantity) };
        }

        var isBowed =
            open.Count == 0
            && places
                .Lines()
                .Any(line =>
                    !line.HasReadBothEnds
                    && line.Fit.Bow is { } bow
                    && LineShape.IsShown(bow)
                    // What such a gauge shows of a bow is its own: it is a better gauge that is asked for.
                    && LineShape.DoubtOf(line) is FindingReason.None
                );
        return new Remedy.ReadAgain(
            quantity,
            [.. open.Count > 0 ? open : read],
            isBowed
                ? "bowed, so that the ends cannot be told from these stations: read within 5 mm of the ends"
                : (
                    outcome is { Reason: FindingReason.IntervalCrossesLimit, WhyAgain: null }
                        ? Lacking(outcome, places)
                        : null
                ) ?? Because(outcome, quantity)
        );
    }

    /// <summary>Where feelers bound what is not proven on one side alone, the feeler that is missing.</summary>
    private static string? Lacking(CheckOutcome outcome, UnitPlaces places)
    {
        var open = Open(outcome, places);
        return FeelersLacking.ToSettle(open.Count > 0 ? open : [.. places.Usable], outcome, places);
    }

    /// <summary>The places that are not proven, and those where feelers would settle an end that is not.</summary>
    private static List<PlaceKnown> Open(CheckOutcome outcome, UnitPlaces places) =>
        [
            .. places.Usable.Where(place =>
                outcome.Comparisons.Any(compared =>
                    compared.Place == UnitPlaces.Name(place.Station, place.Blade)
                    && compared.Verdict == Verdict.Unproven
                )
                || (
                    outcome.Reason is FindingReason.IntervalCrossesLimit
                    && SettlingFeelers.Of(place, outcome, places) is not null
                )
            ),
        ];

    /// <summary>Why to read again, in words.</summary>
    public static string Because(CheckOutcome outcome, MeasuredQuantity quantity) =>
        outcome.WhyAgain
        ?? (
            outcome.Reason is FindingReason.InsideGuard or FindingReason.ProbabilityBetween
                ? TooClose(outcome, quantity)
            : outcome.Reason is FindingReason.UncertaintyUnknown && IsByFeelers(outcome)
                ? "use feelers whose tolerance is stated, and state it in the record"
            : Why(outcome.Reason)
        );

    private static bool IsByFeelers(CheckOutcome outcome) =>
        outcome
            .Comparisons.Where(each => each.Verdict is Verdict.Unproven)
            .Select(each => each.Value is null && (each.KnownLower ?? each.KnownUpper) is not null)
            .DefaultIfEmpty(false)
            .All(told => told);

    /// <summary>
    /// Where there are limits on both sides there is a middle to bring it to; where there is one, or a difference is held against
    /// its limit either way, there is none. What wear alone changes is brought nowhere.
    /// </summary>
    private static string TooClose(CheckOutcome outcome, MeasuredQuantity quantity)
    {
        var compared = outcome.Comparisons.FirstOrDefault(each => each.Verdict is Verdict.Unproven);
        var help =
            quantity is MeasuredQuantity.ReelDiameter or MeasuredQuantity.BedknifeLip ? "use a finer gauge"
            : compared is { LowerLimit: { } lower, UpperLimit: { } upper } && lower != -upper
                ? "bring it nearer the middle, or use a finer gauge"
            : "bring it further inside the limit, or use a finer gauge";
        return $"too close to the limit for this gauge: {help}";
    }

    /// <summary>
    /// What must be read again after turning an adjuster: its own quantity, and all that the sheet says is made void by
    /// that, of what is fitted and read on this unit. What was already turned in this job counts towards it.
    /// </summary>
    public static IEnumerable<MeasuredQuantity> After(UnitFrame unit, IEnumerable<Adjustment> planned)
    {
        var turns = planned.ToList();
        var turned = new Disturbances(unit.Sheet);
        var kinds = turns.Select(turn => turn.Adjuster).ToHashSet();
        foreach (
            var turn in turns.Concat(
                unit.Work.Entries.OfType<Adjustment>().Where(done => kinds.Contains(done.Adjuster))
            )
        )
        {
            turned.Add(turn);
        }

        return Enum.GetValues<MeasuredQuantity>()
            .Where(quantity => turned.On(quantity) is { IsStale: true } or { TurnedItself: true })
            .Where(quantity => unit.Of(quantity) is not null || IsFitted(unit, quantity));
    }

    private static bool IsFitted(UnitFrame unit, MeasuredQuantity quantity) =>
        unit.Sheet.Of(quantity) is not null
        && quantity switch
        {
            MeasuredQuantity.GroomerHeight => unit.Work.Attachments.Contains(Attachment.Groomer),
            MeasuredQuantity.BrushGap => unit.Work.Attachments.Contains(Attachment.RollerBrush),
            // A plate is not used at every job: read again only where it was used.
            MeasuredQuantity.FrontRollerOnPlate or MeasuredQuantity.RearRollerOnPlate => false,
            MeasuredQuantity.ShieldGap => unit.Work.Attachments.Contains(Attachment.Shield),
            _ => true,
        };

    private static string Why(FindingReason reason) =>
        reason switch
        {
            FindingReason.NotMeasured => "not measured yet",
            FindingReason.TooFewStations => "measured at too few places",
            FindingReason.Stale => "something that moves it was turned after the reading",
            FindingReason.Conflicting => "the readings contradict one another",
            FindingReason.UncertaintyUnknown =>
                "use a gauge that is calibrated or zero-checked, or feelers whose tolerance is stated",
            FindingReason.GaugeUnfit => "use a gauge that is in date and passed its check",
            FindingReason.GaugeCannotRead =>
                "use a gauge of a kind that reads this, and that is registered for it",
            FindingReason.GaugeCannotProve => "use a finer gauge: this one cannot prove this limit",
            FindingReason.IntervalCrossesLimit => FeelersLacking.Closer,
            FindingReason.ProcedureNotFollowed => "try the feelers of the procedure, the thinner one first",
            _ => "not proven",
        };
}
