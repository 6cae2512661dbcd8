using System.Collections.Immutable;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Whole steps of an adjuster that land every place inside both prints of the limit. Where feelers leave more room
/// than the zone has, the middle of what they tell is solved for instead, and contact counted on the least: the next
/// reading proves it. Where that may touch, the least itself is solved for, to be read and turned again.
/// </summary>
internal static class StepRemedy
{
    public static Remedy For(
        MeasuredQuantity quantity,
        AdjusterKind kind,
        UnitFrame unit,
        UnitPlaces places,
        PrintedZone zone
    )
    {
        if (StepRepair.For(unit, kind) is { } repair)
        {
            return repair;
        }

        var again = new Remedy.ReadAgain(quantity, [], "what is known does not tell how far to turn");
        if (PairOf(kind, unit) is not { } pair || places.Usable.IsEmpty)
        {
            return again;
        }

        var task = TaskFor(quantity, unit, places, zone, pair);
        var (solution, isLeast) = Solved(task);
        return solution switch
        {
            ClickSolution.Plan plan => Turn(kind, unit, plan, pair, isLeast) with
            {
                LearnedStep = CountedWith(kind, unit, isLeast),
                LearnedStepDoubt = isLeast ? null : LearnedDoubt(kind, unit),
                ReadAfter = task.KeepClear ? ReadAfter(kind, unit, plan, pair) : null,
                IsLeast = isLeast,
                LearnedSide = CountedWith(kind, unit, isLeast) is null
                    ? null
                    : StepInForce.Of(unit, kind)?.OnlySide,
                StillOut = isLeast ? StillOut(unit, places, plan, pair, zone) : [],
                Binds = isLeast ? Binds(unit, kind, places, zone) : null,
            },
            ClickSolution.Infeasible
            {
                Binding: BindingConstraint.EndsUnknown or BindingConstraint.KnowledgeTooWide
            } unknown => again with
            {
                Why =
                    (
                        unknown.Binding is BindingConstraint.KnowledgeTooWide
                            ? FeelersLacking.Of(places.Usable, NaturalBounds.Of(quantity))
                            : null
                    ) ?? unknown.WouldHelp,
            },
            ClickSolution.Infeasible infeasible => new Remedy.CannotBeTurnedIn(
                Words(infeasible.Binding),
                infeasible.Binding is BindingConstraint.Straightness
                && places.Lines().FirstOrDefault() is { } line
                    ? LineShape.ReadFirst(line) + infeasible.WouldHelp
                    : infeasible.WouldHelp
            )
            {
                Nearest = infeasible.Nearest is { } nearest
                    ? Near(kind, unit, nearest, pair, zone, HeldTo(zone, places.Usable))
                    : null,
            },
            _ => throw new InvalidOperationException("solutions are a closed family of two"),
        };
    }

    private static (ClickSolution Solution, bool IsLeast) Solved(ClickTask task)
    {
        var solution = ClickSolver.Solve(task);
        if (solution is ClickSolution.Plan)
        {
            return (solution, false);
        }

        var tried = Taken(task, LimitRemedy.Best) is { } middles ? ClickSolver.Solve(middles) : solution;
        return Touches(tried)
            && Cautious(task) is { } cautious
            && ClickSolver.Solve(cautious) is ClickSolution.Plan { Sequence.IsEmpty: false } part
                ? (part, true)
            : Touches(tried) ? (solution, false)
            : (tried, false);
    }

    private static bool Touches(ClickSolution solution) =>
        solution
            is ClickSolution.Infeasible
            {
                Binding: BindingConstraint.ContactAtTheEnd or BindingConstraint.ContactOnTheWay
            };

    /// <summary>
    /// The least that is credible of every gap, turned by steps that all obtain the most that is: what lands inside so cannot
    /// have touched. None when some gap has no least.
    /// </summary>
    private static ClickTask? Cautious(ClickTask task)
    {
        var pair = task.Adjusters;
        var leasts = task
            .Readings.Select(reading => (reading.Station, Value: reading.Knowledge.AsInterval().Lower?.Value))
            .ToImmutableArray();
        return
            leasts.All(each => each.Value is not null)
            && AdjusterPair.TryCreate(pair.LeftAt, pair.RightAt, pair.MostStep, pair.Approach, out var most)
            ? task with
            {
                Adjusters = most with
                {
                    LeastStep = pair.LeastStep,
                    TakeUp = pair.TakeUp,
                    Travel = pair.Travel,
                },
                Readings =
                [
                    .. leasts.Select(each => new StationReading(
                        each.Station,
                        MeasuredValue.Exact(each.Value!.Value)
                    )),
                ],
            }
            : null;
    }

    /// <summary>
    /// The places that by what was read, and by the step as it is counted, would still lie outside: where nothing may touch, a part
    /// of the way is all that is told.
    /// </summary>
    private static ImmutableArray<PredictedGap> StillOut(
        UnitFrame unit,
        UnitPlaces places,
        ClickSolution.Plan plan,
        AdjusterPair pair,
        PrintedZone zone
    )
    {
        var held = HeldTo(zone, places.Usable);
        return
        [
            .. from place in places.Usable
            where place.Station is not null
            let now = LimitRemedy.Best(place.Knowledge!)
            where now is not null
            let then = now.Value + pair.Movement(plan.LeftSteps, plan.RightSteps, place.Station!.Value)
            where !held.Contains(then)
            select new PredictedGap(UnitPlaces.Name(place.Station, place.Blade), now.Value, then),
        ];
    }

    /// <summary>What keeps a part of the way from being all of it: how well the gaps are known, or how well a step is.</summary>
    private static string Binds(UnitFrame unit, AdjusterKind kind, UnitPlaces places, PrintedZone zone)
    {
        var worst = places.Usable.MaxBy(place => MatchedUnit.Doubt(place.Knowledge!))!;
        var doubt = MatchedUnit.Doubt(worst.Knowledge!);
        var room = zone.Common.Width * 0.5m;
        var step = StepInForce.Of(unit, kind);
        return doubt > room
            ? $"how well the gap is known: ± {UncertaintyPrint.Of(doubt, worst.System)}, where what is aimed for leaves {Wording.Of(room!.Value, worst.System)} either way: a finer gauge or a closer pair of feelers comes first"
            : "that nothing may touch on the way"
                + (
                    step is { } each && each.Most > each.Step
                        ? $", where a step may take {Wording.AtLeast(each.Most, worst.System)}"
                        : string.Empty
                );
    }

    /// <summary>The step that was learned, or where the most is counted with and that was learned, the most; else none.</summary>
    private static Length? CountedWith(AdjusterKind kind, UnitFrame unit, bool isLeast) =>
        StepInForce.Of(unit, kind) is not { } step ? null
        : !step.IsLearned ? null
        : !isLeast ? step.Step
        // The most may be the sheet's, where one side alone was tried.
        : step.OnlySide is not null && step.Most == unit.Sheet.Of(kind)?.OneStep ? null
        : step.Most;

    private static Length? LearnedDoubt(AdjusterKind kind, UnitFrame unit) =>
        StepInForce.Of(unit, kind) is { IsLearned: true } step ? step.LearnedDoubt ?? step.Doubt : null;

    /// <summary>
    /// How many of the single steps cannot touch even where each obtains what the sheet says at most, though less was proven: a slipping
    /// adjuster may grip again. None where all of them cannot.
    /// </summary>
    private static int? ReadAfter(
        AdjusterKind kind,
        UnitFrame unit,
        ClickSolution.Plan plan,
        AdjusterPair pair
    )
    {
        if (
            StepInForce.MostStated(unit, kind) is not { } stated
            || stated <= pair.MostStep
            || !AdjusterPair.TryCreate(pair.LeftAt, pair.RightAt, stated, pair.Approach, out var gripping)
        )
        {
            return null;
        }

        var (left, right) = (0, 0);
        for (var turned = 0; turned < plan.Sequence.Length; turned++)
        {
            var (side, opens) = plan.Sequence[turned];
            (left, right) =
                side is Side.Left ? (left + (opens ? 1 : -1), right) : (left, right + (opens ? 1 : -1));
            if (
                plan.Landings.Any(landing =>
                    landing.Known.AsInterval().Lower?.Value + gripping.Movement(left, right, landing.Station)
                    <= Length.Zero
                )
            )
            {
                return turned;
            }
        }

        return null;
    }

    /// <summary>
    /// The nearest setting as a remedy tells it: by the print that the readings are held against, as their own findings do;
    /// where that is kept everywhere, by both.
    /// </summary>
    private static NearestTurn Near(
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
        return new(kind, nearest.LeftSteps, nearest.RightSteps, Name(worst.Landing), worst.By, worst.IsAbove)
        {
            // By an interval it is reckoned from its end, which nothing is added to but the steps.
            Doubt =
                worst.Landing.Before is MeasuredValue && StepInForce.Of(unit, kind) is { } step
                    ? worst.Landing.Doubt(pair, nearest.LeftSteps, nearest.RightSteps, step.Doubt)
                    : null,
            Also =
            [
                .. misses
                    .Skip(1)
                    .Select(miss => miss.Landing)
                    .OrderBy(landing => landing.Station)
                    .Select(Name),
            ],
            IsByOtherPrint = own.Count == 0 && misses.Count > 0,
        };
    }

    /// <summary>By the print that the readings are held against, or both where they are not all of one unit system.</summary>
    private static ToleranceZone HeldTo(PrintedZone zone, ImmutableArray<PlaceKnown> read) =>
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
            var (below, above) = (
                zone.Lower - LimitRemedy.Least(landing.After),
                LimitRemedy.Greatest(landing.After) - zone.Upper
            );
            var isAbove = !(below > (above ?? Length.Zero));
            if ((isAbove ? above : below) is { } by && by > Length.Zero)
            {
                misses.Add((landing, by, isAbove));
            }
        }

        return [.. misses.OrderByDescending(miss => miss.By).ThenBy(miss => miss.Landing.Station)];
    }

    private static AdjusterPair? PairOf(AdjusterKind kind, UnitFrame unit) =>
        unit.Sheet.Of(kind) is { } adjuster
        && StepInForce.Of(unit, kind) is { } step
        && AdjusterPair.TryCreate(
            adjuster.LeftAt?.Value ?? Length.Zero,
            adjuster.RightAt?.Value ?? StationPlaces.Width(unit.Sheet),
            step.Step,
            adjuster.Finish switch
            {
                FinishDirection.Opening => Approach.Opening,
                FinishDirection.Closing => Approach.Closing,
                _ => Approach.Either,
            },
            out var pair
        )
            ? pair with
            {
                LeastStep = step.WhereContactCounts.Least,
                MostStep = step.WhereContactCounts.Most,
            }
            : null;

    private static ClickTask TaskFor(
        MeasuredQuantity quantity,
        UnitFrame unit,
        UnitPlaces places,
        PrintedZone zone,
        AdjusterPair pair
    )
    {
        var inside = zone.Common;
        return new()
        {
            Adjusters = pair,
            Readings =
            [
                .. places
                    .Usable.Where(place => place.Station is not null)
                    .Select(place => new StationReading(
                        place.Station!.Value,
                        Bounded(place.Knowledge!, quantity)
                    )),
            ],
            Width = StationPlaces.Width(unit.Sheet),
            Zone = inside,
            Target = zone.Target ?? inside.Middle ?? inside.Upper ?? inside.Lower ?? Length.Zero,
            KeepClear = quantity is MeasuredQuantity.Clearance,
        };
    }

    /// <summary>A feeler that does not pass bounds a gap from above alone; where nothing touches, zero bounds it from below.</summary>
    private static Knowledge Bounded(Knowledge known, MeasuredQuantity quantity) =>
        known is LengthInterval interval
        && NaturalBounds.Of(quantity) is { } bound
        && interval.Meet(LengthInterval.AtLeast(bound)) is IntervalMeeting.Overlap both
            ? both.Interval
            : known;

    /// <summary>
    /// The same with one value in place of every interval, and contact still counted on the interval; none when an interval
    /// has no such value, or all is measured anyway.
    /// </summary>
    private static ClickTask? Taken(ClickTask task, Func<Knowledge, Length?> value)
    {
        var taken = task
            .Readings.Select(reading => (reading.Station, Value: value(reading.Knowledge)))
            .ToImmutableArray();
        return
            task.Readings.All(reading => reading.Knowledge is MeasuredValue)
            || taken.Any(each => each.Value is null)
            ? null
            : task with
            {
                Readings =
                [
                    .. taken.Select(each => new StationReading(
                        each.Station,
                        MeasuredValue.Exact(each.Value!.Value)
                    )),
                ],
                Bounds = task.Readings,
            };
    }

    private static Remedy.Turn Turn(
        AdjusterKind kind,
        UnitFrame unit,
        ClickSolution.Plan plan,
        AdjusterPair pair,
        bool isLeast
    )
    {
        var step = StepInForce.Of(unit, kind)?.Doubt ?? Length.Zero;
        return new(
            kind,
            plan.LeftSteps,
            plan.RightSteps,
            plan.Sequence,
            [
                .. plan.Landings.Select(landing => new PredictedGap(
                    Name(landing),
                    Foretold(landing.Before),
                    Foretold(landing.After)
                )
                {
                    BeforeDoubt = isLeast ? null : landing.Reach,
                    AfterDoubt = isLeast ? null : landing.Doubt(pair, plan.LeftSteps, plan.RightSteps, step),
                }),
            ],
            [
                .. ReadAgain.After(
                    unit,
                    plan.Sequence.Select(step => new Adjustment
                    {
                        Adjuster = kind,
                        Side = step.Side,
                        Direction = step.Opens ? AdjustDirection.Open : AdjustDirection.Close,
                        Amount = new AdjustmentAmount.Steps(1),
                    })
                ),
            ]
        );
    }

    private static string Name(Landing landing) =>
        landing.Place switch
        {
            LandingPlace.LeftEnd => "left end",
            LandingPlace.RightEnd => "right end",
            _ => UnitPlaces.Name(landing.Station, null),
        };

    // Not rounded: whoever prints it rounds it once.
    private static Length Foretold(Knowledge knowledge) => LimitRemedy.Best(knowledge) ?? Length.Zero;

    private static string Words(BindingConstraint binding) =>
        binding switch
        {
            BindingConstraint.Straightness =>
                "the line is bowed by more than the limits allow, and turning moves only its ends",
            BindingConstraint.Travel => "it would take more steps than the adjuster has",
            BindingConstraint.StepSize => "one step is too coarse: the limits lie between two steps",
            BindingConstraint.ContactAtTheEnd => "every setting inside the limits touches",
            BindingConstraint.ContactOnTheWay => "every way there touches",
            _ => "what is known is too coarse",
        };
}
