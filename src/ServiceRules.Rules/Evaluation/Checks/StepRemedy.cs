using System.Collections.Immutable;
using System.Globalization;
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
/// reading proves it. Where that may touch, what comes nearest without touching is turned, to be read and turned again.
/// </summary>
internal static class StepRemedy
{
    /// <summary>How many steps are too many: neither a sheet nor a record tells how far an adjuster reaches.</summary>
    public static string BeyondAsked { get; } =
        string.Create(
            CultureInfo.InvariantCulture,
            $"more than {AdjusterPair.MostSteps} steps of a side, more than is ever asked of an adjuster"
        );

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

        if ((places.ProvesNothing() ?? BladesApart.NotRead(quantity, places)) is { } first)
        {
            return first;
        }

        var task = TaskFor(quantity, unit, places, zone, pair);
        var (solution, part) = Solved(task);
        if (
            (part is not null || solution is not ClickSolution.Plan)
            && (
                (Remedy?)BladesApart.Of(quantity, unit, places, zone)
                ?? BladesApart.NotTold(quantity, places, zone)
            )
                is { } apart
        )
        {
            return apart;
        }

        if (part is { } nearest)
        {
            return Part(kind, unit, nearest, task, places, zone);
        }

        return solution switch
        {
            ClickSolution.Plan plan => Turn(
                kind,
                unit,
                (plan.LeftSteps, plan.RightSteps),
                plan.Sequence,
                plan.Landings,
                pair,
                isPart: false
            ) with
            {
                LearnedStepDoubt = LearnedDoubt(kind, unit),
                ReadAfter = ReadAfter(kind, unit, task, plan.Sequence),
            },
            ClickSolution.Infeasible
            {
                Binding: BindingConstraint.EndsUnknown or BindingConstraint.KnowledgeTooWide
            } tooCoarse => again with
            {
                Why =
                    (
                        tooCoarse.Binding is BindingConstraint.KnowledgeTooWide
                            ? FeelersLacking.Of(places.Usable, NaturalBounds.Of(quantity))
                            : null
                    ) ?? tooCoarse.WouldHelp,
            },
            ClickSolution.Infeasible infeasible => new Remedy.CannotBeTurnedIn(
                Words(infeasible.Binding),
                (
                    infeasible.Binding is BindingConstraint.Straightness
                    && places.Lines().FirstOrDefault() is { } line
                        ? LineShape.ReadFirst(line) + infeasible.WouldHelp
                        : infeasible.WouldHelp
                ) + NearestSteps.WhyWorse(infeasible, NearestSteps.HeldTo(zone, places.Usable))
            )
            {
                Nearest = infeasible.Nearest is { } near
                    ? NearestSteps.Of(kind, unit, near, pair, zone, NearestSteps.HeldTo(zone, places.Usable))
                    : null,
            },
            _ => throw new InvalidOperationException("solutions are a closed family of two"),
        };
    }

    /// <summary>
    /// The solution, and where only contact stands in the way, or that a gap is wider than so many steps, what comes nearest: a part
    /// of the way, with what binds.
    /// </summary>
    private static (ClickSolution Solution, (NearestSetting Setting, BindingConstraint Binding)? Part) Solved(
        ClickTask task
    )
    {
        var solution = ClickSolver.Solve(task);
        if (solution is ClickSolution.Plan)
        {
            return (solution, null);
        }

        var tried = Taken(task, known => known.Middle) is { } middles ? ClickSolver.Solve(middles) : solution;
        return tried is not ClickSolution.Infeasible infeasible ? (tried, null)
            : infeasible.Nearest is { Sequence.IsEmpty: false } nearest && LeadsOn(infeasible.Binding, task)
                ? (tried, (nearest, infeasible.Binding))
            : (Touches(infeasible.Binding) ? solution : tried, null);
    }

    /// <summary>Whether a part of the way, read again, leads to the rest.</summary>
    private static bool LeadsOn(BindingConstraint binding, ClickTask task) =>
        Touches(binding) ? CanBeFinished(task) : binding is BindingConstraint.Travel && task.KeepClear;

    /// <summary>
    /// Whether all of the way could be turned if what is most credible were all there is to know: then a part of it, read again, leads to
    /// the rest. Where even that touches, no reading helps.
    /// </summary>
    private static bool CanBeFinished(ClickTask task)
    {
        var sure = task
            .Readings.Select(reading => (reading.Station, Value: reading.Knowledge.Middle))
            .ToImmutableArray();
        return sure.All(each => each.Value is not null)
            && ClickSolver.Solve(
                task with
                {
                    Adjusters = task.Adjusters with
                    {
                        LeastStep = task.Adjusters.Step,
                        MostStep = task.Adjusters.Step,
                    },
                    Readings =
                    [
                        .. sure.Select(each => new StationReading(
                            each.Station,
                            MeasuredValue.Exact(each.Value!.Value)
                        )),
                    ],
                }
            ) is ClickSolution.Plan;
    }

    /// <summary>What comes nearest and is sure not to touch, to be read again before the rest is turned.</summary>
    private static Remedy.Turn Part(
        AdjusterKind kind,
        UnitFrame unit,
        (NearestSetting Setting, BindingConstraint Binding) part,
        ClickTask task,
        UnitPlaces places,
        PrintedZone zone
    ) =>
        Turn(
            kind,
            unit,
            (part.Setting.LeftSteps, part.Setting.RightSteps),
            part.Setting.Sequence,
            part.Setting.Landings,
            task.Adjusters,
            isPart: true
        ) with
        {
            ReadAfter = ReadAfter(kind, unit, task, part.Setting.Sequence),
            IsLeast = true,
            StillOut = NearestSteps.StillOut(part.Setting, NearestSteps.HeldTo(zone, places.Usable)),
            Binds = NearestSteps.Binds(unit, kind, part, places, zone),
        };

    private static bool Touches(BindingConstraint binding) =>
        binding is BindingConstraint.ContactAtTheEnd or BindingConstraint.ContactOnTheWay;

    /// <summary>
    /// The learned step that the remedy tells, none where none was learned. All of the way is counted with the step itself. A part of
    /// it is counted with the most that a step may take; that is told where it was learned.
    /// </summary>
    private static Length? CountedWith(AdjusterKind kind, UnitFrame unit, bool isPart) =>
        StepInForce.Of(unit, kind) is not { } step ? null
        : !step.IsLearned ? null
        : !isPart ? step.Step
        // The most may be the sheet's, where one side alone was tried.
        : step.OnlySide is not null && step.Most == unit.Sheet.Of(kind)?.OneStep ? null
        : step.Most;

    private static Length? LearnedDoubt(AdjusterKind kind, UnitFrame unit) =>
        StepInForce.Of(unit, kind) is { IsLearned: true } step ? step.LearnedDoubt ?? step.Doubt : null;

    /// <summary>
    /// How many of the single steps cannot touch even where each that closes obtains what the sheet says at most, though less was
    /// proven: a slipping adjuster may grip again, and the other still slip. None where all of them cannot.
    /// </summary>
    private static int? ReadAfter(
        AdjusterKind kind,
        UnitFrame unit,
        ClickTask task,
        ImmutableArray<SingleStep> sequence
    ) =>
        task.KeepClear && StepInForce.MostStated(unit, kind) is { } stated && stated > task.Adjusters.MostStep
            ? ClickSolver.StepsBeforeContact(task, sequence, stated)
            : null;

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
        var read = places.Usable.Where(place => place.Station is not null).ToList();
        return new()
        {
            Adjusters = pair,
            HeldTo = NearestSteps.HeldTo(zone, places.Usable),
            Lines = read.TrueForAll(place => place.Blade is null)
                ? []
                : [.. read.Select(place => place.Blade)],
            Readings =
            [
                .. read.Select(place => new StationReading(
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
    public static Knowledge Bounded(Knowledge known, MeasuredQuantity quantity) =>
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
        (int Left, int Right) steps,
        ImmutableArray<SingleStep> sequence,
        ImmutableArray<Landing> landings,
        AdjusterPair pair,
        bool isPart
    )
    {
        var doubt = StepInForce.Of(unit, kind)?.Doubt ?? Length.Zero;
        var learned = CountedWith(kind, unit, isPart);
        return new(
            kind,
            steps.Left,
            steps.Right,
            sequence,
            [
                .. NearestSteps
                    .Telling(landings)
                    .Select(landing =>
                        isPart
                            ? new PredictedGap(
                                Name(landing),
                                AtLeast(landing.LeastBefore),
                                AtLeast(landing.LeastAfter)
                            )
                            : new PredictedGap(
                                Name(landing),
                                Foretold(landing.Before),
                                Foretold(landing.After)
                            )
                            {
                                BeforeDoubt = landing.Reach,
                                AfterDoubt = landing.Doubt(pair, steps.Left, steps.Right, doubt),
                            }
                    ),
            ],
            [
                .. ReadAgain.After(
                    unit,
                    sequence.Select(step => new Adjustment
                    {
                        Adjuster = kind,
                        Side = step.Side,
                        Direction = step.Opens ? AdjustDirection.Open : AdjustDirection.Close,
                        Amount = new AdjustmentAmount.Steps(1),
                    })
                ),
            ]
        )
        {
            LearnedStep = learned,
            LearnedSide = learned is null ? null : StepInForce.Of(unit, kind)?.OnlySide,
        };
    }

    /// <summary>No gap is less than nothing, whatever a line tells of an end.</summary>
    private static Length AtLeast(Length? least) => Length.Max(Length.Zero, least ?? Length.Zero);

    public static string Name(Landing landing)
    {
        var name = landing.Place switch
        {
            LandingPlace.LeftEnd => "left end",
            LandingPlace.RightEnd => "right end",
            _ => UnitPlaces.Name(landing.Station, null),
        };
        return landing.Line is { } blade
            ? string.Create(CultureInfo.InvariantCulture, $"{name}, blade {blade}")
            : name;
    }

    // Not rounded: whoever prints it rounds it once.
    public static Length Foretold(Knowledge knowledge) => knowledge.Middle ?? Length.Zero;

    private static string Words(BindingConstraint binding) =>
        binding switch
        {
            BindingConstraint.Straightness =>
                "the line is bowed by more than the limits allow, and turning moves only its ends",
            BindingConstraint.LinesApart =>
                "the blades stand apart by more than the limits allow, and turning moves all of them alike",
            BindingConstraint.Travel => $"it would take {BeyondAsked}",
            BindingConstraint.StepSize => "one step is too coarse: the limits lie between two steps",
            BindingConstraint.ContactAtTheEnd => "every setting inside the limits touches",
            BindingConstraint.ContactOnTheWay => "every way there touches",
            _ => "what is known is too coarse",
        };
}
