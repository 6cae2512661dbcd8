using System.Collections.Immutable;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>
/// The step that remedies are counted with: the sheet's, or the one that this job's own readings proved to be another.
/// </summary>
/// <param name="Step">Movement of one step at its own adjuster, above zero.</param>
/// <param name="IsLearned">Whether it was learned, and not taken from the sheet.</param>
/// <param name="Least">The least that is credible of a step: the least that was learned, or the sheet's; not below zero.</param>
/// <param name="Most">The most that is credible of a step: the most that was learned, or the sheet's.</param>
/// <param name="Doubt">
/// How far a step may be from <paramref name="Step"/>: half of what was learned leaves, or half a unit of the last digit that the
/// sheet prints.
/// </param>
internal readonly record struct StepInForce(
    Length Step,
    bool IsLearned,
    Length Least,
    Length Most,
    Length Doubt
)
{
    /// <summary>How far what was learned may itself be off; where both sides were tried, <see cref="Doubt"/>.</summary>
    public Length? LearnedDoubt { get; private init; }

    /// <summary>
    /// The side alone that a learned step was learned on: of the other nobody knows whether it does what the sheet says, so the
    /// sheet's step stays among what is credible.
    /// </summary>
    public Side? OnlySide { get; private init; }

    /// <summary>
    /// The least and the most that a step may do where contact is counted: what is credible of it and, of the sheet's where that is
    /// among it, half a unit of its last digit besides.
    /// </summary>
    public (Length Least, Length Most) WhereContactCounts
    {
        get
        {
            var (least, most) = Print is { } print
                ? (Length.Min(Least, print.Step - print.Digits), Length.Max(Most, print.Step + print.Digits))
                : (Least, Most);
            return (Length.Max(Length.Zero, Length.Min(least, Step)), Length.Max(most, Step));
        }
    }

    private (Length Step, Length Digits)? Print { get; init; }

    // A step proven to obtain less than this share of the sheet's slips rather than moves: nothing is counted with it
    // (common practice, no source).
    private const decimal LeastShare = 0.25m;

    // To where means of readings are: coarser, and so many steps would land elsewhere than the step that is told says.
    private const int Decimals = 7;

    /// <summary>
    /// None when neither the sheet nor the readings tell a step above zero, or when the adjuster has to be repaired first.
    /// </summary>
    public static StepInForce? Of(UnitFrame unit, AdjusterKind kind)
    {
        var stated = unit.Sheet.Of(kind)?.OneStep;
        ImmutableArray<StepTrial> trials = [.. Tried(unit.StepsTried, kind)];
        var learned = Learned(trials);
        if (IsAmiss(stated, learned) || IsContested(trials) || NotedDistance.IsContradicted(unit, kind))
        {
            return null;
        }

        if (
            learned is not null
            && Proving(learned, stated) is { Best: { } best } proving
            && Math.Round(best.Millimetres, Decimals) is > 0 and var rounded
            && (stated is not { } print || learned.Against(print) is not StepAnswer.Agrees)
        )
        {
            var ofOneSide = SideTold(unit.StepsTried, kind);
            var told = Within(
                Length.FromMillimetres(rounded),
                true,
                Length.Zero,
                [.. Ends(learned.PerStep), .. Ends(proving.PerStep)]
            );
            return ofOneSide is null || stated is not { } untried
                ? told
                : Within(told.Step, true, Length.Zero, [told.Least, told.Most, untried]) with
                {
                    LearnedDoubt = told.Doubt,
                    OnlySide = ofOneSide,
                    Print = (untried, DigitsOf(unit.Sheet.Of(kind)!)),
                };
        }

        return stated is { } sheet && sheet > Length.Zero
            ? Within(
                sheet,
                false,
                DigitsOf(unit.Sheet.Of(kind)!),
                [.. Possible(unit.StepsTried, kind, sheet), .. NotedDistance.Possible(unit, kind, sheet)]
            ) with
            {
                Print = (sheet, DigitsOf(unit.Sheet.Of(kind)!)),
            }
            : null;
    }

    /// <summary>The one side that the trials tell of, the other having an adjuster of its own that nobody tried; none where both.</summary>
    private static Side? SideTold(IEnumerable<StepsTried> tried, AdjusterKind kind)
    {
        var told = tried
            .Where(each => each.Adjuster == kind)
            .Select(each => each.TellsOf)
            .Distinct()
            .ToList();
        return told is [Side.Left or Side.Right] ? told[0] : null;
    }

    private static StepInForce Within(
        Length step,
        bool isLearned,
        Length leastDoubt,
        ImmutableArray<Length> possible
    )
    {
        Length[] credible = [step, .. possible];
        var (least, most) = (credible.Min(), credible.Max());
        return new(
            step,
            isLearned,
            Length.Max(Length.Zero, least),
            most,
            Length.Max(leastDoubt, Length.Max(most - step, step - least))
        );
    }

    /// <summary>
    /// What a step may have been where tries are carried over it: what this job's measured readings learned of it; where they prove
    /// nothing against the sheet, that with the sheet's print, and where they contradict it or one another past any use, all of
    /// them. Feelers tell nothing here: carried by what they told of the step they would never contradict it. None when nobody
    /// states a step.
    /// </summary>
    public static (Length Least, Length Most)? Carrying(
        LimitSheet sheet,
        ImmutableArray<StepsTried> tried,
        AdjusterKind kind
    )
    {
        if (sheet.Of(kind) is not { OneStep: { } stated } adjuster || stated <= Length.Zero)
        {
            return null;
        }

        ImmutableArray<StepsTried> measured = [.. tried.Where(each => each.Trial.Change is MeasuredValue)];
        var learned = Learned([.. Tried(measured, kind)]);
        var isOther = learned is { Best: not null } && learned.Against(stated) is not StepAnswer.Agrees;
        var digits = DigitsOf(adjuster);
        Length[] all =
            isOther && !IsAmiss(stated, learned)
                ? [.. Ends(learned!.PerStep), .. Ends(learned.Proving(stated).PerStep)]
                : [stated - digits, stated + digits, .. Possible(measured, kind, stated)];
        return (all.Min(), all.Max());
    }

    /// <summary>
    /// The ends of what trials that tell something leave of a step, at each place for itself and over all: each side has its own
    /// adjuster. Feelers that leave more than half a step either way tell nothing.
    /// </summary>
    private static ImmutableArray<Length> Possible(
        ImmutableArray<StepsTried> tried,
        AdjusterKind kind,
        Length stated
    )
    {
        ImmutableArray<StepTrial> trials = [.. Tried(tried, kind)];
        return
        [
            .. tried
                .Where(each => each.Adjuster == kind)
                .GroupBy(each => (each.Quantity, each.Station, each.Blade), each => each.Trial)
                .Select(place => Learned([.. place]))
                .Append(Learned(trials))
                // Of those that contradict one another each is as credible as the next.
                .Concat(IsContested(trials) ? trials.Select(trial => LearnedStep.From([trial])) : [])
                .OfType<LearnedStep>()
                .Where(learned =>
                    learned.PerStep is MeasuredValue || learned.PerStep.AsInterval().Width <= stated
                )
                .SelectMany(learned => Ends(learned.PerStep)),
        ];
    }

    /// <summary>The most that the sheet's print of a step may stand for; none where it prints none.</summary>
    public static Length? MostStated(UnitFrame unit, AdjusterKind kind) =>
        unit.Sheet.Of(kind) is { OneStep: { } stated } adjuster ? stated + DigitsOf(adjuster) : null;

    /// <summary>How far the sheet's step may lie from its print; where two prints agree, from the finer one.</summary>
    private static Length DigitsOf(Adjuster adjuster) =>
        adjuster.Step is not { } print ? Length.Zero
        : print is { Alternate: { } other, Agreement: PrintAgreement.Agrees }
            ? Length.Min(print.Governing.RoundingHalfWidth, other.RoundingHalfWidth)
        : print.Governing.RoundingHalfWidth;

    /// <summary>
    /// Whether this job's readings prove that the adjuster does not do what it should: its steps go the other way, or may
    /// obtain nothing, or next to nothing, or more than anybody can tell, or one time more than the other time allows. It is
    /// repaired before it is turned by a count.
    /// </summary>
    public static bool IsBroken(UnitFrame unit, AdjusterKind kind) =>
        IsContested(unit, kind)
        || NotedDistance.IsContradicted(unit, kind)
        || IsAmiss(unit.Sheet.Of(kind)?.OneStep, Learned(unit, kind))
        || IsAmissByDistance(unit, kind);

    /// <summary>Whether a turn noted as a distance may have obtained nothing, or next to nothing, or the other way.</summary>
    public static bool IsAmissByDistance(UnitFrame unit, AdjusterKind kind) =>
        IsAmiss(DistanceTried.AsNoted, LearnedByDistance(unit, kind))
        || LastByPlace(unit.DistancesTried.Where(tried => tried.Adjuster == kind))
            .Any(tried => IsAmiss(DistanceTried.AsNoted, LearnedStep.From([tried.Trial])));

    /// <summary>The last of them at each place.</summary>
    public static IEnumerable<DistanceTried> LastByPlace(IEnumerable<DistanceTried> tried) =>
        tried.GroupBy(each => each.Station).Select(place => place.Last());

    /// <summary>
    /// Whether what steps of this job moved contradicts itself: one time more than the other time allows. Nobody knows then what
    /// the next one obtains.
    /// </summary>
    public static bool IsContested(UnitFrame unit, AdjusterKind kind) =>
        IsContested([.. Tried(unit.StepsTried, kind)]);

    private static bool IsContested(ImmutableArray<StepTrial> trials) => LearnedStep.Differ(trials);

    private static bool IsAmiss(Length? stated, LearnedStep? learned)
    {
        if (learned is null)
        {
            return false;
        }

        var told = Proving(learned, stated).PerStep.AsInterval();
        var (least, most) = (told.Lower?.Value, told.Upper?.Value);
        return most < Length.Zero
            || (
                stated is { } step
                && learned.Against(step) switch
                {
                    StepAnswer.MovesLess => !(least > Length.Zero) || most < step * LeastShare,
                    StepAnswer.MovesMore => most is null,
                    _ => false,
                }
            );
    }

    private static LearnedStep Proving(LearnedStep learned, Length? stated) =>
        stated is { } print ? learned.Proving(print) : learned;

    private static IEnumerable<Length> Ends(Knowledge? perStep) =>
        perStep?.AsInterval() is { } known
            ? new[] { known.Lower?.Value, known.Upper?.Value }.OfType<Length>()
            : [];

    /// <summary>What this job's readings tell of a step; none when they tell nothing or contradict one another.</summary>
    public static LearnedStep? Learned(UnitFrame unit, AdjusterKind kind) =>
        Learned([.. Tried(unit.StepsTried, kind)]);

    private static LearnedStep? Learned(ImmutableArray<StepTrial> trials) =>
        LearnedStep.Differ(trials) ? null : LearnedStep.From(trials);

    /// <summary>
    /// What this job's readings tell of a noted millimetre of an adjuster; none when they tell nothing or contradict one
    /// another.
    /// </summary>
    public static LearnedStep? LearnedByDistance(UnitFrame unit, AdjusterKind kind) =>
        LearnedStep.From([
            .. unit.DistancesTried.Where(tried => tried.Adjuster == kind).Select(tried => tried.Trial),
        ]);

    private static IEnumerable<StepTrial> Tried(IEnumerable<StepsTried> tried, AdjusterKind kind) =>
        tried.Where(each => each.Adjuster == kind).Select(each => each.Trial);
}
