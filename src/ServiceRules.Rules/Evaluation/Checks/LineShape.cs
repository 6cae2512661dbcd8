using System.Globalization;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// The shape of what was read along the width, in words: the value in the middle, how far one end departs from the other,
/// how far the middle is bowed. What lies within its own uncertainty is not told.
/// </summary>
internal static class LineShape
{
    private const string HoldsNothing = "; this holds nothing: with the bow it is in";

    /// <summary>Whether a departure is more than its uncertainty.</summary>
    public static bool IsShown(Knowledge departure) =>
        departure switch
        {
            MeasuredValue measured => measured.Value.Abs > measured.Expanded.Value,
            LengthInterval interval => !interval.Contains(Length.Zero),
            _ => false,
        };

    /// <summary>
    /// How far what was read, and the parabola at ends that were not, lies below and above the straight line that adjusters move;
    /// zero and zero where no bow shows.
    /// </summary>
    public static (Length Below, Length Above) Departures(KnownLine line)
    {
        var fit = line.Fit;
        if (fit.Bow is not { } bow || !IsShown(bow))
        {
            return (Length.Zero, Length.Zero);
        }

        var departures = fit
            .Readings.Select(reading => (At: reading.Station, Now: reading.Knowledge.Middle))
            .Concat(
                new[] { Length.Zero, fit.Width }
                    .Where(end => !fit.IsRead(end))
                    .Select(end => (At: end, Now: fit.ParabolaAt(end).Middle))
            )
            .Select(each => each.Now - fit.LineAt(each.At).Middle)
            .OfType<Length>()
            .ToList();
        return (
            departures.Aggregate(Length.Zero, (most, each) => Length.Max(most, -each)),
            departures.Aggregate(Length.Zero, Length.Max)
        );
    }

    /// <summary>
    /// One sentence for each line: all of its shape where the check is not met, and a bow in any case, since no adjuster
    /// takes it out.
    /// </summary>
    public static IEnumerable<string> Notices(
        MeasuredQuantity quantity,
        IEnumerable<KnownLine> lines,
        Verdict verdict
    ) => lines.Select(line => Sentence(line, WordsOf(quantity), verdict)).OfType<string>();

    /// <summary>Why what was read of a line proves nothing; none where it does.</summary>
    public static FindingReason DoubtOf(KnownLine line) => Doubts.Gravest(line.Places);

    private static string? Sentence(KnownLine line, Words words, Verdict verdict)
    {
        List<string> parts = [];
        var mean = Wording.Of(line.Fit.Offset, line.System);
        if (verdict is Verdict.NotMet && IsShown(line.Fit.Tilt))
        {
            parts.Add($"{Departure(line.Fit.Tilt, words, line.System)} at the right end than at the left");
        }

        if (line.Fit.Bow is { } bow && IsShown(bow))
        {
            mean = Wording.Of(line.Fit.Mean, line.System);
            parts.Add(
                $"bowed{ByThisGauge(line)}, {Departure(bow, words, line.System)} in the middle than at the ends: {ReadFirst(line)}{words.BowRemedy}"
                    + (verdict is Verdict.Met ? HoldsNothing : string.Empty)
            );
        }

        if (parts.Count == 0)
        {
            return null;
        }

        var blade = line.Blade is { } number
            ? string.Create(CultureInfo.InvariantCulture, $", blade {number}")
            : string.Empty;
        return $"over the width{blade}: mean {mean}; {string.Join("; ", parts)}";
    }

    /// <summary>
    /// Nobody grinds for a slip: the reading that makes the bow is read again first, unless it was read twice and came out alike.
    /// </summary>
    public static string ReadFirst(KnownLine line)
    {
        if (DoubtOf(line) is not FindingReason.None)
        {
            return "read again at every station first, with a gauge that is fit for it and in date; if it stands, ";
        }

        var at = line.Fit.Outlying.Station;
        return line.Places.First(place => place.Station == at) is { IsReadTwice: false } once
            ? $"read again at {UnitPlaces.Name(once.Station, once.Blade)} first; if it stands, "
            : string.Empty;
    }

    /// <summary>A gauge that proves nothing shows no bow of the unit, but of its own readings.</summary>
    private static string ByThisGauge(KnownLine line) =>
        DoubtOf(line) switch
        {
            FindingReason.None => string.Empty,
            FindingReason.GaugeUnfit => " by what this gauge shows alone, which is not fit to prove it",
            FindingReason.GaugeCannotRead => " by what this gauge shows alone, which does not read this",
            FindingReason.UncertaintyUnknown => " by what this gauge shows alone, of which nothing is known",
            _ => " by readings that prove nothing yet",
        };

    private static string Departure(Knowledge departure, Words words, UnitSystem system)
    {
        // An interval of one end has no middle: it falls where its upper end is no more than nothing.
        var rises =
            !(departure.Middle < Length.Zero)
            && departure is not LengthInterval { Lower: null, Upper.Value: { Millimetres: <= 0 } };
        return $"{Wording.Of(rises ? departure : Negated.Of(departure), system)} {(rises ? words.Larger : words.Smaller)}";
    }

    private static Words WordsOf(MeasuredQuantity quantity) =>
        quantity switch
        {
            MeasuredQuantity.HeightOfCut or MeasuredQuantity.GroomerHeight => new(
                "higher",
                "lower",
                "no adjuster takes a bow out; look at edge and rollers, and grind or straighten"
            ),
            MeasuredQuantity.FrontRoller => new(
                "further from the cutting edge",
                "nearer to the cutting edge",
                "squaring does not take a bow out; straighten or replace the roller"
            ),
            MeasuredQuantity.ReelDiameter => new("larger", "smaller", "grind"),
            _ => new("wider", "narrower", "no adjuster takes a bow out; grind"),
        };

    private sealed record Words(string Larger, string Smaller, string BowRemedy);
}
