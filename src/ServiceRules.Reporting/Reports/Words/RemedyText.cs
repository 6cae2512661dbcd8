using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Rules.Evaluation;

namespace ServiceRules.Reporting.Reports.Words;

/// <summary>What to do, in the words of the bench, said in the site's own names for the parts.</summary>
public static class RemedyText
{
    /// <summary>More units than these that stay are told as the others.</summary>
    private const int NamedAtMost = 4;

    public static IEnumerable<string> Of(Func<string, string> say, Remedy? remedy, UnitSystem system) =>
        remedy switch
        {
            null => [],
            Remedy.Turn turn => Turned(say, turn, system),
            Remedy.OpenUntilFree free =>
            [
                say(
                    $"Turn {ReportWords.Of(free.Adjuster)}: open one step at a time, both sides in turn, until it just "
                        + $"frees at both ends; then open {Steps(free.ThenOpen)} more. {Again(free.Again)}"
                ),
            ],
            Remedy.Move move =>
            [
                say(
                    $"Move {ReportWords.Of(move.Adjuster)}: {Sides(move.Adjuster, move.Left, move.LeftTurns, move.Right, move.RightTurns, system)}. "
                        + Again(move.Again)
                ),
                .. Learned(move.LearnedPart, move.LeftTurns ?? move.RightTurns, system),
            ],
            Remedy.MoveUnits units =>
            [
                say(Moved(units, system)),
                .. units.Moves.SelectMany(move =>
                    Learned(move.LearnedPart, move.LeftTurns ?? move.RightTurns, system, $" on {move.Unit}")
                ),
            ],
            Remedy.ReadAgain read =>
            [
                say($"Read {ReportWords.Of(read.Quantity)} again{At(read.Places)}: {read.Why}."),
            ],
            Remedy.CannotBeTurnedIn cannot =>
            [
                say($"Cannot be turned in: {cannot.Binding}. What would help: {cannot.WouldHelp}."),
                .. Nearest(cannot.Nearest, system),
            ],
            Remedy.Act act => [say(Whole(act.What))],
            _ => throw new ArgumentOutOfRangeException(nameof(remedy), remedy, null),
        };

    /// <summary>That turns are counted with a ratio which this job's readings told, and not with the sheet's.</summary>
    private static IEnumerable<string> Learned(
        Length? part,
        HeightTurns? turns,
        UnitSystem system,
        string where = ""
    ) =>
        part is { } learned && turns is not null
            ?
            [
                $"Counted{where} with {LengthPrint.Of(learned, system)} for {TurnWords.Of(turns with { Parts = 1 })}, "
                    + "as read before and after what was already turned in this job.",
            ]
            : [];

    private static string Moved(Remedy.MoveUnits units, UnitSystem system)
    {
        var moves = units.Moves.Select(move =>
            $"{move.Unit} {Sides(units.Adjuster, move.Left, move.LeftTurns, move.Right, move.RightTurns, system)}"
        );
        var stay = units.Stay.Length > NamedAtMost ? ["the others"] : units.Stay;
        var then = stay.IsEmpty
            ? "Then read them again."
            : $"Leave {ReportWords.Listed(stay)}; then read the moved ones again.";
        return $"Move {ReportWords.Of(units.Adjuster)}: {string.Join("; ", moves)}. {then}";
    }

    private static IEnumerable<string> Nearest(NearestTurn? nearest, UnitSystem system)
    {
        if (nearest is null)
        {
            yield break;
        }

        var raises = Raises(nearest.Adjuster);
        var misses =
            nearest.Excess == Length.Zero
                ? "inside the limits, but touching"
                : $"leaves {Excess(nearest, system)} too {Too(nearest.IsAbove, raises)} at {nearest.Place}{Also(nearest)}{Print(nearest)}";
        yield return $"Nearest: {Both(nearest.LeftSteps, nearest.RightSteps, raises)}: {misses}.";
    }

    private static string Excess(NearestTurn nearest, UnitSystem system) =>
        nearest.Doubt is { } doubt
            ? UncertaintyPrint.Beside(nearest.Excess, doubt, system)
            : LengthPrint.Of(nearest.Excess, system);

    private static string Also(NearestTurn nearest) =>
        nearest.Also.IsEmpty ? "" : $", and by no more than that at {ReportWords.Listed(nearest.Also)}";

    private static string Print(NearestTurn nearest) =>
        nearest.IsByOtherPrint ? " by the other printed limit; by that of the readings all would be in" : "";

    private static string Too(bool isAbove, bool raises) =>
        (isAbove, raises) switch
        {
            (true, true) => "high",
            (false, true) => "low",
            (true, false) => "wide",
            _ => "tight",
        };

    private static bool Raises(AdjusterKind adjuster) =>
        adjuster
            is AdjusterKind.Height
                or AdjusterKind.HeightRange
                or AdjusterKind.Groomer
                or AdjusterKind.FrontRoller;

    private const string SlipFirst =
        "First see why a step does not move what the sheet says: look for a loose pivot, a worn bearing or a slipping adjuster. "
        + "Where one is found and put right, the count below holds no longer: turn some steps and read again.";

    private static IEnumerable<string> Turned(Func<string, string> say, Remedy.Turn turn, UnitSystem system)
    {
        var raises = Raises(turn.Adjuster);
        if (turn.LearnedStep is not null)
        {
            yield return say(SlipFirst);
        }
        yield return say(
            $"Turn {ReportWords.Of(turn.Adjuster)}: {Both(turn.LeftSteps, turn.RightSteps, raises)}."
        );
        if (turn.Sequence.Length > 1)
        {
            yield return $"One step at a time: {string.Join(", then ", Stretches(turn.Sequence, raises))}"
                + (
                    turn.Sequence.Any(step => step.Opens != turn.Sequence[^1].Opens)
                        ? $", so that it finishes with {Way(turn.Sequence[^1].Opens, raises)}."
                        : "."
                );
        }
        if (turn.ReadAfter is { } safe)
        {
            yield return $"Read again after {Before(safe)}: should a step obtain again what the sheet says, the next could touch.";
        }
        if (!turn.Predicted.IsEmpty)
        {
            var predicted = string.Join(
                "; ",
                turn.Predicted.Select(place => Predicted(place, system, turn.IsLeast))
            );
            yield return turn.IsLeast
                ? $"Predicted at least: {predicted}. Counted from the least that the readings leave and with the most that a step may take, so that nothing touches on the way: read again, then turn the rest."
                : $"Predicted: {predicted}.";
        }
        if (turn.Binds is { } binds)
        {
            yield return $"{StillOut(turn.StillOut, system)}What binds is {binds}.";
        }
        if (turn.LearnedStep is { } learned)
        {
            var step =
                turn.LearnedStepDoubt is { } doubt ? UncertaintyPrint.Beside(learned, doubt, system)
                : turn.IsLeast ? LengthPrint.AtMost(learned, system)
                : LengthPrint.Of(learned, system);
            yield return turn.LearnedSide is { } side
                ? $"Counted with {step} a step, as read before and after the steps already turned on the {ReportWords.Of(side)}; the sheet's step does not hold there. The other side was not tried: contact is counted with the sheet's step as well."
                : $"Counted with {step} a step, as read before and after the steps already turned; the sheet's step does not hold here.";
        }
        if (!turn.Again.IsEmpty)
        {
            yield return say(Again(turn.Again));
        }
    }

    private static string StillOut(ImmutableArray<PredictedGap> places, UnitSystem system) =>
        places.IsEmpty
            ? string.Empty
            : $"By what was read this leaves {ReportWords.Listed([.. places.Select(place => $"{place.Place} at {LengthPrint.Of(place.After, system)}")])}, still outside what is aimed for: the nearest that is sure not to touch. ";

    private static string Before(int steps) =>
        steps == 0 ? "every single one of these steps" : $"the first {Steps(steps)} of these";

    /// <summary>One place: as it is, and as it will be with how far that may be off.</summary>
    private static string Predicted(PredictedGap place, UnitSystem system, bool isLeast) =>
        isLeast
            ? $"{place.Place} from {LengthPrint.AtLeastFigure(place.Before, system)} to {LengthPrint.AtLeastFigure(place.After, system)} {LengthPrint.Unit(system)}"
        : place is { BeforeDoubt: { } now, AfterDoubt: { } then }
            ? $"{place.Place} from {UncertaintyPrint.ValueFigure(place.Before, now, system)} to {UncertaintyPrint.Beside(place.After, then, system)}"
        : $"{place.Place} from {LengthPrint.Figure(place.Before, system)} to {LengthPrint.Of(place.After, system)}";

    /// <summary>The order to turn in, told by stretches in one direction rather than click by click.</summary>
    private static IEnumerable<string> Stretches(ImmutableArray<SingleStep> sequence, bool raises)
    {
        for (var start = 0; start < sequence.Length; )
        {
            var opens = sequence[start].Opens;
            var length = sequence.Skip(start).TakeWhile(step => step.Opens == opens).Count();
            var stretch = sequence.Slice(start, length);
            yield return $"{Way(opens, raises)} {Sides(stretch)}";
            start += length;
        }
    }

    // More single words than this are counted: nobody reads twenty.
    private const int ReadAtAGlance = 4;

    private static string Sides(ImmutableArray<SingleStep> stretch)
    {
        if (InTurn(stretch, 0) is var all && all == stretch.Length && all % 2 == 0)
        {
            return Alternating(stretch, 0, all);
        }

        if (stretch.Length <= ReadAtAGlance)
        {
            return string.Join(", ", stretch.Select(step => ReportWords.Of(step.Side)));
        }

        List<string> parts = [];
        for (var at = 0; at < stretch.Length; )
        {
            var same = stretch.Skip(at).TakeWhile(step => step.Side == stretch[at].Side).Count();
            var inTurn = InTurn(stretch, at) / 2 * 2;
            parts.Add(
                same > 1 || inTurn < 2
                    ? $"{ReportWords.Of(stretch[at].Side)} {Steps(same)}"
                    : Alternating(stretch, at, inTurn)
            );
            at += same > 1 || inTurn < 2 ? same : inTurn;
        }

        return string.Join(", then ", parts);
    }

    private static string Alternating(ImmutableArray<SingleStep> stretch, int at, int length) =>
        $"{ReportWords.Of(stretch[at].Side)} and {ReportWords.Of(stretch[at + 1].Side)} in turn, {Steps(length / 2)} each";

    /// <summary>How many steps from here on change the side each time.</summary>
    private static int InTurn(ImmutableArray<SingleStep> stretch, int at)
    {
        var length = 1;
        while (at + length < stretch.Length && stretch[at + length].Side != stretch[at + length - 1].Side)
        {
            length++;
        }

        return length;
    }

    private static string Both(int left, int right, bool raises) =>
        (left, right) switch
        {
            (0, 0) => "as it stands",
            (0, _) => $"right {Way(right, raises)}, the left stays",
            (_, 0) => $"left {Way(left, raises)}, the right stays",
            _ => $"left {Way(left, raises)}, right {Way(right, raises)}",
        };

    private static string Way(int steps, bool raises) => $"{Steps(Math.Abs(steps))} {Way(steps > 0, raises)}";

    private static string Way(bool opens, bool raises) =>
        (opens, raises) switch
        {
            (true, true) => "up",
            (false, true) => "down",
            (true, false) => "open",
            _ => "close",
        };

    private static string At(ImmutableArray<string> places) =>
        places.IsEmpty || places is ["across"] ? "" : $" at {ReportWords.Listed(places)}";

    /// <summary>A whole sentence, whether it was written as one or not.</summary>
    public static string Whole(string text)
    {
        var begun = ReportWords.Sentence(text);
        return begun.Length == 0 || begun.EndsWith('.') ? begun : begun + ".";
    }

    private static string Steps(int count) => ReportWords.Counted(count, "step", "steps");

    private static string Sides(
        AdjusterKind adjuster,
        Length left,
        HeightTurns? leftTurns,
        Length right,
        HeightTurns? rightTurns,
        UnitSystem system
    ) =>
        (Stays(left, leftTurns), Stays(right, rightTurns)) switch
        {
            (true, true) => "both ends stay as they are",
            (true, false) => $"right {Signed(adjuster, right, rightTurns, system)}, the left stays",
            (false, true) => $"left {Signed(adjuster, left, leftTurns, system)}, the right stays",
            _ when left == right => $"both ends {Signed(adjuster, left, leftTurns, system)}",
            _ =>
                $"left {Signed(adjuster, left, leftTurns, system)}, right {Signed(adjuster, right, rightTurns, system)}",
        };

    private static bool Stays(Length move, HeightTurns? turns) =>
        move == Length.Zero || turns is { Parts: 0 };

    private static string Signed(AdjusterKind adjuster, Length move, HeightTurns? turns, UnitSystem system)
    {
        // Up and down of a roller turn about with the unit on the bench: its distance from the edge does not.
        if (adjuster is AdjusterKind.FrontRoller)
        {
            return $"{LengthPrint.Settable(move.Abs, system)} {(move > Length.Zero ? "further from" : "nearer to")} the cutting edge";
        }

        var way = Way(move > Length.Zero, Raises(adjuster));
        return turns is null
            ? $"{way} {LengthPrint.Settable(move.Abs, system)}"
            : $"{TurnWords.Of(turns)} {way} ({LengthPrint.Settable(turns.Predicted.Abs, system)})";
    }

    private static string Again(ImmutableArray<MeasuredQuantity> quantities) =>
        quantities.IsEmpty
            ? ""
            : string.Create(
                CultureInfo.InvariantCulture,
                $"Then read again: {ReportWords.Listed([.. quantities.Select(ReportWords.Of)])}."
            );
}
