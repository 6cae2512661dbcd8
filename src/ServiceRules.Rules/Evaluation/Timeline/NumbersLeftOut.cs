using System.Globalization;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// What the counter of a device leaves out between its entries in one record: entries of other jobs, or entries taken out. The
/// record cannot say which, so it is told and holds nothing.
/// </summary>
internal static class NumbersLeftOut
{
    private const int MostTold = 6;

    /// <summary>A sentence for each device of which numbers are left out.</summary>
    public static IEnumerable<string> Of(TimelineReading reading) =>
        from entry in reading.Events
        where entry.Event is { Device: not null, Sequence: not null }
        group entry.Event.Sequence!.Value by entry.Event.Device into device
        let gaps = Gaps([.. device.Distinct().Order()])
        where gaps.Count > 0
        select $"Device {device.Key} leaves out {Told(gaps)} between its entries: what it entered under {(gaps is [var (first, last)] && first == last ? "this number" : "these numbers")} the record does not show.";

    private static List<(int First, int Last)> Gaps(List<int> numbers) =>
        [
            .. numbers
                .Zip(numbers.Skip(1))
                .Where(pair => pair.Second - (long)pair.First > 1)
                .Select(pair => (pair.First + 1, pair.Second - 1)),
        ];

    private static string Told(List<(int First, int Last)> gaps)
    {
        var told = gaps.Take(MostTold)
            .Select(gap =>
                gap.First == gap.Last
                    ? gap.First.ToString(CultureInfo.InvariantCulture)
                    : string.Create(CultureInfo.InvariantCulture, $"{gap.First} to {gap.Last}")
            )
            .ToList();
        if (gaps.Count > MostTold)
        {
            told.Add(string.Create(CultureInfo.InvariantCulture, $"{gaps.Count - MostTold} more stretches"));
        }

        return TimelineWords.List(told);
    }
}
