using System.Collections.Immutable;

namespace ServiceRules.Reporting.Layout;

/// <summary>A padded box with an optional ground, outline and a bar at its left edge; cut with its content.</summary>
public sealed class Frame(Block content, FrameStyle style) : Block
{
    internal override Fragment Fit(Space space)
    {
        var across = (2 * style.PaddingX) + style.BarWidth;
        var inner = content.Fit(space.Inset(across, 2 * style.PaddingY));
        if (inner.IsNothing)
        {
            return Fragment.Nothing(this);
        }
        var height = inner.Height + (2 * style.PaddingY);
        var bounds = new Box(0, 0, space.Width, height);
        var items = ImmutableArray.CreateBuilder<Placed>();
        items.Add(new Placed.Group(StructureRole.Artifact, bounds, Ground(bounds)));
        var inside = new Placement(style.PaddingX + style.BarWidth, style.PaddingY);
        items.AddRange(inner.Items.Select(item => item.Moved(inside)));
        return new Fragment(
            items.ToImmutable(),
            height,
            inner.Rest is null ? null : new Frame(inner.Rest, style)
        );
    }

    internal override void Tell(TextLedger ledger) => content.Tell(ledger);

    private ImmutableArray<Placed> Ground(Box bounds)
    {
        var items = ImmutableArray.CreateBuilder<Placed>();
        if (style.Fill is not null || style.Outline is not null)
        {
            items.Add(new Placed.Rectangle(bounds, style.Fill, style.Outline, style.Radius));
        }
        if (style.Bar is { } bar)
        {
            items.Add(new Placed.Rectangle(bounds with { Width = style.BarWidth }, bar, null));
        }
        return items.ToImmutable();
    }
}
