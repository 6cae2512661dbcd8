using System.Collections.Immutable;

namespace ServiceRules.Reporting.Layout;

/// <summary>Blocks side by side. When one is cut, the row continues on the next page with what is left of each.</summary>
public sealed class Row(ImmutableArray<Column> columns, double gap = 0) : Block
{
    internal override Fragment Fit(Space space)
    {
        var widths = ColumnWidth.Resolve([.. columns.Select(column => column.Width)], space.Width, gap);
        var cells = columns
            .Select((column, index) => column.Content.Fit(space with { Width = widths[index] }))
            .ToImmutableArray();
        if (cells.Any(cell => cell.IsNothing))
        {
            return Fragment.Nothing(this);
        }
        var height = cells.Max(cell => cell.Height);
        var cut = cells.Any(cell => cell.Rest is not null);
        var items = ImmutableArray.CreateBuilder<Placed>();
        double left = 0;
        for (var index = 0; index < cells.Length; index++)
        {
            var top = columns[index].Centred && !cut ? (height - cells[index].Height) / 2 : 0;
            items.AddRange(cells[index].Items.Select(item => item.Moved(new Placement(left, top))));
            left += widths[index] + gap;
        }
        return new Fragment(items.ToImmutable(), height, cut ? Rest(cells) : null);
    }

    internal override void Tell(TextLedger ledger)
    {
        foreach (var column in columns)
        {
            column.Content.Tell(ledger);
        }
    }

    private Row Rest(ImmutableArray<Fragment> cells) =>
        new(
            [.. columns.Select((column, index) => column with { Content = cells[index].Rest ?? new Gap(0) })],
            gap
        );
}
