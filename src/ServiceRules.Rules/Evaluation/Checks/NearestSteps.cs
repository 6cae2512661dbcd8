using System.Collections.Immutable;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Rules.Evaluation.Bench;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>What is told of the whole steps that come nearest, where none land every place inside or none are sure not to touch.</summary>
internal static class NearestSteps
{
    /// <summary>
    /// The nearest setting as a remedy tells it: by the print that the readings are held against, as their own findings do;
    /// where that is kept everywhere, by both.
    /// </summary>
    public static NearestTurn Of(
        AdjusterKind kind,
        UnitFrame unit,
        NearestSetting nearest,
        AdjusterPair pair,
        PrintedZone zone,
        ToleranceZone held
    )
    {
        var own = Misses(nearest.Landings, held);
        var misses = own.Count > 0 ? own : Misses(nearest.Landings, zone.Common);
        var worst = misses.Count > 0 ? misses[0] : (Landing: nearest.Worst, By: Length.Zero, nearest.IsAbove);
        return new(
            kind,
            nearest.LeftSteps,
            nearest.RightSteps,
            StepRemedy.Name(worst.Landing),
            worst.By,
            worst.IsAbove
        )
        {
            Doubt = StepInForce.Of(unit, kind) is { } step
                ? DoubtOf(worst.Landing, nearest, pair, step.Doubt)
                : null,
            Also =
            [
                .. misses
                    .Skip(1)
                    .Select(miss => miss.Landing)
                    .OrderBy(landing => landing.Station)
                    .Select(StepRemedy.Name),
            ],
            IsByOtherPrint = own.Count == 0 && misses.Count > 0,
        };
    }

    /// <summary>By an interval the excess is reckoned from its end, and the steps alone put that in doubt; none where nothing is turned.</summary>
    private static Length? DoubtOf(
        Landing landing,
        NearestSetting nearest,
        AdjusterPair pair,
        Length stepDoubt
    )
    {
        var (left, right) = (nearest.LeftSteps, nearest.RightSteps);
        return landing.Before is MeasuredValue ? landing.Doubt(pair, left, right, stepDoubt)
            : (left, right) == (0, 0) ? null
            : landing.DoubtOfTheSteps(pair, left, right, stepDoubt);
    }

    /// <summary>By the print that the readings are held against, or both where they are not all of one unit system.</summary>
    public static ToleranceZone HeldTo(PrintedZone zone, ImmutableArray<PlaceKnown> read) =>
        zone.For(read[0].System, read.Any(place => place.IsReadInBoth || place.System != read[0].System));

    /// <summary>Every place that would lie outside, the worst first and from the left among equals.</summary>
    private static List<(Landing Landing, Length By, bool IsAbove)> Misses(
        ImmutableArray<Landing> landings,
        ToleranceZone zone
    )
    {
        var misses = new List<(Landing Landing, Length By, bool IsAbove)>();
        foreach (var landing in landings)
        {
            var (by, isAbove) = Miss(landing.After, zone);
            if (by > Length.Zero)
            {
                misses.Add((landing, by, isAbove));
            }
        }

        return [.. misses.OrderByDescending(miss => miss.By).ThenBy(miss => miss.Landing.Station)];
    }

    /// <summary>By how much it lies outside, and on which side; zero or less where it lies in.</summary>
    private static (Length By, bool IsAbove) Miss(Knowledge known, ToleranceZone zone)
    {
        var (below, above) = (zone.Lower - known.Least, known.Greatest - zone.Upper);
        var isAbove = !(below > (above ?? Length.Zero));
        return ((isAbove ? above : below) ?? Length.Zero, isAbove);
    }

    /// <summary>
    /// The places that by what was read, and by the step as it is counted, would still lie outside: where nothing may touch, a part
    /// of the way is all that is told.
    /// </summary>
    public static ImmutableArray<PredictedGap> StillOut(NearestSetting nearest, ToleranceZone held) =>
        [
            .. Telling([
                    .. nearest.Landings.Where(landing => !held.Contains(StepRemedy.Foretold(landing.After))),
                ])
                .Select(landing => new PredictedGap(
                    StepRemedy.Name(landing),
                    StepRemedy.Foretold(landing.Before),
                    StepRemedy.Foretold(landing.After)
                )),
        ];

    /// <summary>
    /// What keeps a part of the way from being all of it: how well the gaps are known, or how well a step is; and where what is in
    /// is kept in at the price of what is out, that.
    /// </summary>
    public static string Binds(
        UnitFrame unit,
        AdjusterKind kind,
        (NearestSetting Setting, BindingConstraint Binding) part,
        UnitPlaces places,
        PrintedZone zone
    )
    {
        var (nearest, binding) = part;
        if (binding is BindingConstraint.Travel)
        {
            return $"that all of the way takes {StepRemedy.BeyondAsked}: see first how the unit sits";
        }

        var worst = places.Usable.MaxBy(place => MatchedUnit.Doubt(place.Knowledge!))!;
        var doubt = MatchedUnit.Doubt(worst.Knowledge!);
        var room = zone.Common.Width * 0.5m;
        var step = StepInForce.Of(unit, kind);
        var kept = nearest.KeepsIn ? ", and that what was read to be in stays in" : string.Empty;
        return doubt > room
            ? $"how well the gap is known: ± {UncertaintyPrint.Of(doubt, worst.System)}, where what is aimed for leaves {Wording.Of(room!.Value, worst.System)} either way{kept}: a finer gauge or a closer pair of feelers comes first"
            : "that nothing may touch on the way"
                + (
                    step is { } each && each.Most > each.Step
                        ? $", where a step may take {Wording.AtLeast(each.Most, worst.System)}"
                        : string.Empty
                )
                + kept;
    }

    /// <summary>
    /// Why what comes nearest betters no place that was read, where it does not: an end that nobody read may touch as it stands.
    /// Nothing where it betters one.
    /// </summary>
    public static string WhyWorse(ClickSolution.Infeasible infeasible, ToleranceZone held)
    {
        if (
            infeasible is not { StartsFree: false, Nearest: { Sequence.IsEmpty: false } nearest }
            || nearest.Landings.Any(landing =>
                landing.Place is LandingPlace.Station && IsBettered(landing, held)
            )
        )
        {
            return string.Empty;
        }

        var touching = nearest
            .Landings.Where(landing =>
                landing.Place is not LandingPlace.Station && !(landing.LeastBefore > Length.Zero)
            )
            .Select(StepRemedy.Name)
            .Distinct(StringComparer.Ordinal)
            .ToList();
        return touching.Count == 0
            ? string.Empty
            : $"; what comes nearest opens it only because {Wording.Listed(touching)} may touch as it stands, by the line or the bow through what was read: read nearer there before anything is turned for that";
    }

    private static bool IsBettered(Landing landing, ToleranceZone held)
    {
        var (before, after) = (Miss(landing.Before, held).By, Miss(landing.After, held).By);
        return before > Length.Zero && after < before;
    }

    /// <summary>
    /// The landings to tell: all of one line; of several blades at each place the one that stands widest and the one that stands
    /// tightest.
    /// </summary>
    public static ImmutableArray<Landing> Telling(ImmutableArray<Landing> landings) =>
        landings.Select(landing => landing.Line).Distinct().Count() <= 1
            ? landings
            :
            [
                .. landings
                    .GroupBy(landing => (landing.Place, landing.Station))
                    .SelectMany(place =>
                        new[]
                        {
                            place.MinBy(landing => StepRemedy.Foretold(landing.After))!,
                            place.MaxBy(landing => StepRemedy.Foretold(landing.After))!,
                        }.Distinct()
                    ),
            ];
}
