using System.Collections.Immutable;

namespace ServiceRules.Reporting.Layout;

/// <summary>
/// Rows in columns. Breaks between rows and repeats its head; only a row that no page could hold is cut itself.
/// </summary>
public sealed class Table : Block
{
    private readonly ImmutableArray<ColumnWidth> _columns;
    private readonly TableRow? _head;
    private readonly ImmutableArray<TableRow> _rows;
    private readonly TableStyle _style;
    private readonly bool _continued;

    public Table(
        ImmutableArray<ColumnWidth> columns,
        TableRow? head,
        ImmutableArray<TableRow> rows,
        TableStyle style
    )
        : this(columns, head, rows, style, continued: false) { }

    private Table(
        ImmutableArray<ColumnWidth> columns,
        TableRow? head,
        ImmutableArray<TableRow> rows,
        TableStyle style,
        bool continued
    )
    {
        _columns = columns;
        _head = head;
        _rows = rows;
        _style = style;
        _continued = continued;
    }

    internal override Fragment Fit(Space space)
    {
        var items = ImmutableArray.CreateBuilder<Placed>();
        double top = 0;
        if (_head is not null)
        {
            var head = FitRow(_head, space.Whole(), StructureRole.TableHeader).Fragment;
            items.AddRange(_continued ? head.Items.Select(Repeated) : head.Items);
            top = head.Height;
        }
        for (var index = 0; index < _rows.Length; index++)
        {
            var firstHere = space.Fresh && index == 0;
            var room = space with { Height = space.Height - top, Fresh = firstHere };
            var (row, rest) = FitRow(_rows[index], room, StructureRole.TableCell);
            var couldStandWhole = new Lazy<bool>(() =>
                FitRow(
                    _rows[index],
                    room with
                    {
                        Height = space.FullHeight - top,
                    },
                    StructureRole.TableCell
                ).Left
                    is null
            );
            if (row.IsNothing || (rest is not null && !firstHere && couldStandWhole.Value))
            {
                return index == 0 ? Fragment.Nothing(this) : Finish(items, top, space, _rows[index..]);
            }
            items.AddRange(row.Items.Select(item => item.Moved(new Placement(0, top))));
            top += row.Height;
            if (rest is not null)
            {
                return Finish(items, top, space, [rest, .. _rows[(index + 1)..]]);
            }
        }
        return Finish(items, top, space, []);
    }

    internal override void Tell(TextLedger ledger)
    {
        IEnumerable<TableRow> rows = _head is null || _continued ? _rows : [_head, .. _rows];
        foreach (var cell in rows.SelectMany(row => row.Cells))
        {
            cell.Tell(ledger);
        }
    }

    private Fragment Finish(
        ImmutableArray<Placed>.Builder items,
        double height,
        Space space,
        ImmutableArray<TableRow> rest
    )
    {
        var bounds = new Box(0, 0, space.Width, height);
        return new Fragment(
            [new Placed.Group(StructureRole.Table, bounds, items.ToImmutable())],
            height,
            rest.IsEmpty ? null : new Table(_columns, _head, rest, _style, continued: true)
        );
    }

    private (Fragment Fragment, TableRow? Left) FitRow(TableRow row, Space space, StructureRole role)
    {
        var widths = ColumnWidth.Resolve(_columns, space.Width, 0);
        var cells = row
            .Cells.Select(
                (cell, index) =>
                    cell.Fit(
                        (space with { Width = widths[index] }).Inset(2 * _style.PaddingX, 2 * _style.PaddingY)
                    )
            )
            .ToImmutableArray();
        if (cells.Any(cell => cell.IsNothing))
        {
            return (Fragment.Nothing(this), row);
        }
        var height = cells.Max(cell => cell.Height) + (2 * _style.PaddingY);
        var items = ImmutableArray.CreateBuilder<Placed>();
        items.AddRange(Ground(row, role, space.Width, height));
        double left = 0;
        for (var index = 0; index < cells.Length; index++)
        {
            var place = new Placement(left + _style.PaddingX, _style.PaddingY);
            items.Add(
                new Placed.Group(
                    role,
                    new Box(left, 0, widths[index], height),
                    [.. cells[index].Items.Select(item => item.Moved(place))]
                )
            );
            left += widths[index];
        }
        var group = new Placed.Group(
            StructureRole.TableRow,
            new Box(0, 0, space.Width, height),
            items.ToImmutable()
        );
        var cut = cells.Any(cell => cell.Rest is not null);
        return (
            new Fragment([group], height, null),
            cut ? row with { Cells = [.. cells.Select(cell => cell.Rest ?? new Gap(0))] } : null
        );
    }

    private IEnumerable<Placed> Ground(TableRow row, StructureRole role, double width, double height)
    {
        var isHead = role == StructureRole.TableHeader;
        var bounds = new Box(0, 0, width, height);
        if ((isHead ? _style.HeaderFill ?? row.Fill : row.Fill) is { } fill)
        {
            yield return new Placed.Group(
                StructureRole.Artifact,
                bounds,
                [new Placed.Rectangle(bounds, fill, null)]
            );
        }
        if ((isHead ? _style.HeaderLine ?? _style.RowLine : _style.RowLine) is { } stroke)
        {
            var line = new Placed.Line(new Point(0, height), new Point(width, height), stroke);
            yield return new Placed.Group(StructureRole.Artifact, bounds, [line]);
        }
    }

    // Each part is a table of its own to those who hear it, and a table has a head.
    private static Placed Repeated(Placed item) =>
        item is Placed.Group group ? group with { IsRepeated = true } : item;
}
