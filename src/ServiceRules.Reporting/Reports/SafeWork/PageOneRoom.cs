using System.Collections.Immutable;
using ServiceRules.Reporting.Layout;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>How much of each list page one has room for; what does not fit is told behind it.</summary>
/// <param name="Jobs">Jobs that need action.</param>
/// <param name="Duties">Duties that recur.</param>
/// <param name="Registers">Faults of the registers.</param>
internal sealed record PageOneRoom(int Jobs, int Duties, int Registers)
{
    /// <summary>The most first. The last fits whatever the records say, but for titles that fill lines.</summary>
    private static readonly ImmutableArray<PageOneRoom> All =
    [
        new(16, 14, 10),
        new(14, 12, 8),
        new(12, 10, 6),
        new(10, 8, 5),
        new(8, 6, 4),
        new(6, 5, 3),
        new(4, 4, 2),
    ];

    /// <summary>The most that still is one page.</summary>
    public static PageOneRoom For(
        Func<PageOneRoom, ImmutableArray<Block>> content,
        PageDesign design,
        ITextMeasure measure,
        double spacing
    ) =>
        All.FirstOrDefault(
            room => Pagination.LayOut(new Stack(content(room), spacing), design, measure).Pages.Length == 1,
            All[^1]
        );
}
