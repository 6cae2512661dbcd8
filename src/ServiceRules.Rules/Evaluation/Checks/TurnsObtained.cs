using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Rules.Evaluation.Bench;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Screws that were turned and moved nothing, or the other way, or far from what was noted, told by readings before and after.
/// Advice, never a verdict; adjusters that turn in steps have a check of their own.
/// </summary>
internal static class TurnsObtained
{
    public static IEnumerable<string> Notices(MeasuredQuantity quantity, UnitFrame unit) =>
        AdjustedQuantity.FinelySetBy(quantity) is { } kind
            ? new[] { ByParts(quantity, kind, unit) }
                .OfType<string>()
                .Concat(ByDistance(quantity, kind, unit))
            : [];

    private static string? ByParts(MeasuredQuantity quantity, AdjusterKind kind, UnitFrame unit)
    {
        if (
            unit.Sheet.Of(kind) is not { Step: null, Thread: { } thread } adjuster
            || !unit.StepsTried.Any(tried => tried.Adjuster == kind)
        )
        {
            return null;
        }

        if (StepInForce.IsContested(unit, kind))
        {
            return $"one time turns moved the {Wording.Of(quantity)} by more than the other time allows: look for a loose lock nut or lost motion, on each side";
        }

        if (StepInForce.Learned(unit, kind) is not { } learned)
        {
            return null;
        }

        var last = unit.StepsTried.Last(tried => tried.Adjuster == kind);
        var parts = TurnWords.Of(new(last.Turned, thread.Parts, Length.Zero));
        return Amiss(
            $"{parts} {Way(kind, last.Trial)} moved the {Wording.Of(quantity)}",
            learned,
            adjuster.OneStep
        );
    }

    /// <summary>
    /// By all trials together where they tell; else by the last at each place, since each side has a screw of its own and one that
    /// did nothing hides behind one that did.
    /// </summary>
    private static IEnumerable<string> ByDistance(
        MeasuredQuantity quantity,
        AdjusterKind kind,
        UnitFrame unit
    )
    {
        var tried = unit.DistancesTried.Where(each => each.Adjuster == kind).ToList();
        var isInSteps = unit.Sheet.Of(kind)?.Step is not null;
        if (tried.Count == 0)
        {
            return [];
        }

        if (
            StepInForce.LearnedByDistance(unit, kind) is { } learned
            && Told(quantity, kind, tried[^1], learned, string.Empty, isInSteps) is { } together
        )
        {
            return [together];
        }

        var places = UnitPlaces.Of(unit, quantity);
        return StepInForce
            .LastByPlace(tried)
            .Select(each =>
                LearnedStep.From([each.Trial]) is { } alone
                    ? Told(
                        quantity,
                        kind,
                        each,
                        alone,
                        each.Station is null ? string.Empty : $" at {places.Said(each.Station, null)}",
                        isInSteps
                    )
                    : null
            )
            .OfType<string>();
    }

    private static string? Told(
        MeasuredQuantity quantity,
        AdjusterKind kind,
        DistanceTried tried,
        LearnedStep learned,
        string at,
        bool isInSteps
    )
    {
        var turned =
            $"{Wording.Of(tried.Noted, tried.System)} {Way(kind, tried.Trial)}, as it was noted, moved the {Wording.Of(quantity)}{at}";
        return Amiss(turned, learned, DistanceTried.AsNoted) ?? FarFrom(turned, learned, tried, isInSteps);
    }

    /// <summary>The other way, or by nothing that shows; none where it moved its way.</summary>
    private static string? Amiss(string turned, LearnedStep learned, Length? stated)
    {
        var known = learned.PerStep.AsInterval();
        return known.Upper is { } most && most.Value < Length.Zero
                ? $"{turned} the other way: see which way the screw turns, and that it was noted so, before turning further"
            : known.Contains(Length.Zero) && !(stated is { } step && known.Contains(step))
                ? $"{turned} by nothing that the readings show: look for a slipping screw or a seized pivot before turning further"
            : null;
    }

    /// <summary>Of an adjuster in steps any difference that is proven is told, since nothing is counted on it then.</summary>
    private static string? FarFrom(string turned, LearnedStep learned, DistanceTried last, bool isInSteps)
    {
        var isTold =
            NotedDistance.IsFarOff(learned)
            || (isInSteps && learned.Against(DistanceTried.AsNoted) is not StepAnswer.Agrees);
        var change = last.Trial.Steps > 0 ? last.Trial.Change : Negated.Of(last.Trial.Change);
        return isTold
            ? $"{turned} by {Wording.Of(change, last.System)}: look for a slipping screw, a loose or a seized pivot, and see that the distance was noted right, before turning further"
            : null;
    }

    private static string Way(AdjusterKind kind, StepTrial trial) =>
        kind is AdjusterKind.FrontRoller
            ? trial.Steps > 0
                ? "further from the cutting edge"
                : "nearer to the cutting edge"
            : UpOrOpen(kind, trial);

    private static string UpOrOpen(AdjusterKind kind, StepTrial trial) =>
        (trial.Steps > 0, kind is AdjusterKind.Clearance) switch
        {
            (true, true) => "open",
            (false, true) => "closed",
            (true, false) => "up",
            _ => "down",
        };
}
