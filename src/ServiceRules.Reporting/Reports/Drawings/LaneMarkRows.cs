using System.Collections.Immutable;

namespace ServiceRules.Reporting.Reports.Drawings;

/// <summary>Marks set in as few rows as keep those of one event apart.</summary>
internal static class LaneMarkRows
{
    /// <summary>Points across one mark.</summary>
    public const double Side = 8.4;

    public static ImmutableArray<ImmutableArray<LaneMark>> Of(
        LaneOverlay? overlay,
        IReadOnlyList<NumberedEvent> shown
    )
    {
        var (first, last) = (shown[0].Number, shown[^1].Number);
        return
        [
            .. (overlay?.Marks ?? [])
                .Where(mark => mark.Event >= first && mark.Event <= last)
                .GroupBy(mark => mark.Event)
                .SelectMany(same => same.Select((mark, row) => (mark, row)))
                .GroupBy(one => one.row, one => one.mark)
                .OrderBy(row => row.Key)
                .Select(row => row.ToImmutableArray()),
        ];
    }
}
