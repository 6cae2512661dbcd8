using System.Globalization;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// One line over the width against the largest difference that is permitted between any two of its places. Each pair of
/// stations and ends is held against it with the uncertainty of its own difference, for the largest difference need not be the
/// least certain one; the worst of them speaks. Of three stations or more nothing is met that a bow might take beyond the limit,
/// whether it shows or not: by a coarser gauge it shows less, and is no smaller. It shows nothing out, since how it goes on beyond
/// the stations no reading tells.
/// </summary>
internal static class OverTheWidth
{
    private const string Range = "out of parallel by";

    public static string PlaceOf(KnownLine line) =>
        line.Blade is { } blade
            ? string.Create(CultureInfo.InvariantCulture, $"across, blade {blade}")
            : "across";

    public static PlaceJudgement Judged(
        MeasuredQuantity quantity,
        KnownLine line,
        UnitPlaces places,
        PrintedZone most,
        RuleDecision decision
    )
    {
        PlaceJudgement Held(string said, Knowledge by, string way, GrownDoubt? grown) =>
            PlaceJudgement.Of(
                new(quantity, PlaceOf(line), said, by, line.System, line.Doubt, Length.Zero)
                {
                    Grown = grown,
                    IsReadInBoth = line.IsReadInBoth,
                    Way = way,
                },
                most,
                decision
            );

        var pairs = line.Fit.Differences;
        if (pairs.IsEmpty)
        {
            var whole = GrownDoubt.OfLine(line, each => each.Fit.Range);
            return Held(Range, line.Fit.Range, Extremes(line), whole);
        }

        string At(Length at) =>
            line.Places.FirstOrDefault(place => place.Station == at) is { } read
                ? places.Said(read.Station, null)
            : at == Length.Zero ? "left end"
            : "right end";
        var worst = pairs
            .Select(pair =>
                Held(
                    pair == pairs[0] ? Range : $"{At(pair.Above)} above {At(pair.Below)} by",
                    pair.By,
                    $"{pair.Above} above {pair.Below}",
                    GrownDoubt.OfLine(line, each => each.Fit.Difference(pair.Above, pair.Below) ?? pair.By)
                )
            )
            .MinBy(judged => JudgedPlaces.Rank(judged.Compared.Verdict))!;
        return worst.Compared.Verdict is Verdict.Met && BowBeyond(line, Held) is { } bowed ? bowed : worst;
    }

    /// <summary>The largest difference by the parabola of which it is not proven that it keeps the limit.</summary>
    private static PlaceJudgement? BowBeyond(
        KnownLine line,
        Func<string, Knowledge, string, GrownDoubt?, PlaceJudgement> held
    )
    {
        var isShown = line.Fit.Bow is { } bow && LineShape.IsShown(bow);
        return (
            from pair in line.Fit.DifferencesByParabola
            let isOfAnEnd = new[] { pair.Above, pair.Below }.Any(at => IsUnreadEnd(line, at))
            let cause = isShown ? Bowed(pair.By, isOfAnEnd) : MayBeBowed(pair.By, isOfAnEnd)
            let judged = held(
                isShown ? "by its bow out of parallel by" : "by a bow that may be there out of parallel by",
                pair.By,
                $"{pair.Above} above {pair.Below}",
                cause
            )
            where judged.Compared.Verdict is not Verdict.Met
            select judged.LeftOpen(cause)
        ).FirstOrDefault();
    }

    /// <summary>An end that the parabola alone tells; of the places that it tells the other one is the middle.</summary>
    private static bool IsUnreadEnd(KnownLine line, Length at) =>
        (at == Length.Zero || at == line.Fit.Width) && !line.Fit.IsRead(at);

    private static GrownDoubt Bowed(MeasuredValue byBow, bool isOfAnEnd) =>
        isOfAnEnd
            ? new(
                byBow,
                "how far the bow goes on to the ends no reading tells",
                "bowed, so that the ends cannot be told from these stations: read within 5 mm of the ends"
            )
            : new(
                byBow,
                "how far the bow reaches in the middle no reading tells",
                "bowed, so that the middle cannot be told from these stations: read in the middle too"
            );

    private static GrownDoubt MayBeBowed(MeasuredValue byBow, bool isOfAnEnd) =>
        isOfAnEnd
            ? new(
                byBow,
                "these readings do not tell whether it is bowed, nor how far a bow goes on to the ends",
                "a bow that these readings leave possible would take the ends beyond the limit: read within 5 mm of the ends, or with a finer gauge"
            )
            : new(
                byBow,
                "these readings do not tell whether it is bowed, nor how far a bow reaches in the middle",
                "a bow that these readings leave possible would take the middle beyond the limit: read in the middle too, or with a finer gauge"
            );

    /// <summary>
    /// Where the largest and where the smallest distance is. Only as long as those are the same places is what lies between two
    /// ranges a range as large as the lesser of them.
    /// </summary>
    private static string Extremes(KnownLine line)
    {
        var distances = line
            .Places.Select(place => (At: place.Station!.Value, Value: place.Knowledge!))
            .Concat(
                new[] { Length.Zero, line.Fit.Width }
                    .Where(end => !line.Fit.IsRead(end))
                    .Select(end => (At: end, Value: line.Fit.At(end)))
            )
            .Select(each => (each.At, Value: each.Value.Middle ?? Length.Zero))
            .ToList();
        var (largest, smallest) = (distances.MaxBy(each => each.Value), distances.MinBy(each => each.Value));
        return $"{largest.At} above {smallest.At}";
    }
}
