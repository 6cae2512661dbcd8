using System.Collections.Immutable;
using ServiceRules.Reporting.Layout;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>How much of each list page one has room for; what does not fit is told behind it.</summary>
/// <param name="Jobs">Jobs that need action, told with what they need.</param>
/// <param name="Named">Further jobs that need action, each by its name and its numbers.</param>
/// <param name="Duties">Duties that recur.</param>
/// <param name="Registers">Faults of the registers.</param>
internal sealed record PageOneRoom(int Jobs, int Named, int Duties, int Registers)
{
    /// <summary>Every job of a hundred has its place, whatever else has to go on behind.</summary>
    private const int NamedMost = 120;

    /// <summary>Open jobs on which nothing is missed so far: a few of them always.</summary>
    public int GoingOn => Math.Max(2, Jobs / 3);

    /// <summary>The most first. The last fits whatever the records say, but for titles that fill lines.</summary>
    private static readonly ImmutableArray<PageOneRoom> All =
    [
        new(16, NamedMost, 14, 10),
        new(14, NamedMost, 12, 8),
        new(12, NamedMost, 10, 6),
        new(10, NamedMost, 8, 5),
        new(8, NamedMost, 6, 4),
        new(6, NamedMost, 5, 3),
        new(4, NamedMost, 4, 2),
        new(4, NamedMost, 3, 1),
        new(4, NamedMost / 2, 4, 2),
        new(4, 0, 4, 2),
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
