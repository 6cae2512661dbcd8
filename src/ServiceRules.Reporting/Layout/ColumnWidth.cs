using System.Collections.Immutable;

namespace ServiceRules.Reporting.Layout;

/// <summary>A column of fixed width in points, or a share of what the fixed ones leave.</summary>
public readonly record struct ColumnWidth
{
    private ColumnWidth(double points, double parts)
    {
        Points = points;
        Parts = parts;
    }

    public double Points { get; }

    public double Parts { get; }

    public static ColumnWidth Fixed(double points) => new(points, 0);

    public static ColumnWidth Share(double parts = 1) => new(0, parts);

    internal static ImmutableArray<double> Resolve(
        ImmutableArray<ColumnWidth> columns,
        double width,
        double gap
    )
    {
        var free = width - (gap * (columns.Length - 1)) - columns.Sum(column => column.Points);
        var parts = columns.Sum(column => column.Parts);
        return
        [
            .. columns.Select(column =>
                column.Parts > 0 ? Math.Max(1, free * column.Parts / parts) : column.Points
            ),
        ];
    }
}
