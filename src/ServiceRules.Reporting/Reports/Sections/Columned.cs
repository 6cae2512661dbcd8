using ServiceRules.Reporting.Layout;

namespace ServiceRules.Reporting.Reports.Sections;

/// <summary>A list set in columns, read down the first, then down the next.</summary>
internal static class Columned
{
    private const double Gutter = 10;

    public static Row Of(IReadOnlyCollection<Block> lines, int columns)
    {
        var each = Math.Max(1, (lines.Count + columns - 1) / columns);
        var filled = lines
            .Chunk(each)
            .Select(column => new Column(ColumnWidth.Share(), new Stack([.. column])))
            .ToList();
        while (filled.Count < columns)
        {
            filled.Add(new Column(ColumnWidth.Share(), new Gap(0)));
        }
        return new Row([.. filled], Gutter);
    }
}
