using System.Collections.Immutable;

namespace ServiceRules.Reporting.Layout;

/// <summary>The lines of a paragraph, or those left of it.</summary>
internal sealed class LineRun(ImmutableArray<TextLine> lines, Align align, StructureRole role) : Block
{
    internal override Fragment Fit(Space space)
    {
        var count = CountThatFits(space);
        if (count == 0 && lines.Length > 0)
        {
            return Fragment.Nothing(this);
        }
        var placed = ImmutableArray.CreateBuilder<Placed>();
        double top = 0;
        foreach (var line in lines.AsSpan(0, count))
        {
            var left = align switch
            {
                Align.Centre => (space.Width - line.Width) / 2,
                Align.Right => space.Width - line.Width,
                _ => 0,
            };
            foreach (var run in line.Runs)
            {
                placed.Add(
                    new Placed.Text(left + run.X, top + line.Baseline, run.Content, run.Style, run.Width)
                );
            }
            top += line.Height;
        }
        var rest = count < lines.Length ? new LineRun(lines[count..], align, role) : null;
        var group = new Placed.Group(role, new Box(0, 0, space.Width, top), placed.ToImmutable());
        return new Fragment(placed.Count == 0 ? [] : [group], top, rest);
    }

    internal override void Tell(TextLedger ledger)
    {
        foreach (var run in lines.SelectMany(line => line.Runs))
        {
            ledger.OweVisible(run.Content);
        }
    }

    private int CountThatFits(Space space)
    {
        var count = 0;
        double height = 0;
        while (count < lines.Length && space.Holds(height + lines[count].Height))
        {
            height += lines[count].Height;
            count++;
        }
        if (count == lines.Length)
        {
            return count;
        }
        if (lines.Length - count == 1 && count > 2)
        {
            count--;
        }
        if (space.Fresh)
        {
            return Math.Max(1, count);
        }
        return count < 2 ? 0 : count;
    }
}
