using System.Collections.Immutable;

namespace ServiceRules.Reporting.Layout;

/// <summary>Turns a layout tree into pages, and makes sure that every character of it was placed.</summary>
public static class Pagination
{
    /// <summary>A report longer than this is a mistake in its input, not a report.</summary>
    public const int PagesMax = 2000;

    public static PlacedDocument LayOut(Block content, PageDesign design, ITextMeasure measure)
    {
        var session = new LayoutSession(measure);
        var widest = new PageNumber(9999, 9999);
        var head = FurnitureHeight(design.Header, widest, design, session);
        var foot = FurnitureHeight(design.Footer, widest, design, session);
        var width = design.Width - (2 * design.MarginX);
        var height = design.Height - (2 * design.MarginY) - head - foot;

        var bodies = new List<ImmutableArray<Placed>>();
        for (Block? rest = content; rest is not null; )
        {
            var fragment = rest.Fit(new Space(session, width, height, height, Fresh: true));
            if (fragment.IsNothing || bodies.Count == design.PagesMax)
            {
                throw new InvalidOperationException(
                    $"layout did not end after page {bodies.Count} of at most {design.PagesMax}"
                );
            }
            bodies.Add(fragment.Items);
            rest = fragment.Rest;
        }
        var pages = bodies.Select(
            (body, index) => Assemble(body, new PageNumber(index + 1, bodies.Count), design, session, head)
        );
        var document = new PlacedDocument([.. pages]);
        RequireAllPlaced(content, document, session);
        return document;
    }

    private static PlacedPage Assemble(
        ImmutableArray<Placed> body,
        PageNumber number,
        PageDesign design,
        LayoutSession session,
        double head
    )
    {
        var items = ImmutableArray.CreateBuilder<Placed>();
        if (design.Header is { } header)
        {
            items.Add(Furniture(header(number), design, session, design.MarginY));
        }
        var place = new Placement(design.MarginX, design.MarginY + head);
        items.AddRange(body.Select(item => item.Moved(place)));
        if (design.Footer is { } footer)
        {
            var block = footer(number);
            var height = Measure(block, design, session).Height;
            items.Add(Furniture(block, design, session, design.Height - design.MarginY - height));
        }
        return new PlacedPage(design.Width, design.Height, items.ToImmutable());
    }

    private static double FurnitureHeight(
        Func<PageNumber, Block>? furniture,
        PageNumber number,
        PageDesign design,
        LayoutSession session
    ) => furniture is null ? 0 : Measure(furniture(number), design, session).Height + design.FurnitureGap;

    private static Fragment Measure(Block block, PageDesign design, LayoutSession session)
    {
        var width = design.Width - (2 * design.MarginX);
        var limit = design.Height / 4;
        var fragment = block.Fit(new Space(session, width, limit, limit, Fresh: true));
        return fragment.Rest is null
            ? fragment
            : throw new InvalidOperationException("running head or foot is taller than a quarter page");
    }

    private static Placed.Group Furniture(Block block, PageDesign design, LayoutSession session, double top)
    {
        var fragment = Measure(block, design, session);
        var place = new Placement(design.MarginX, top);
        return new Placed.Group(
            StructureRole.Artifact,
            new Box(design.MarginX, top, design.Width - (2 * design.MarginX), fragment.Height),
            [.. fragment.Items.Select(item => item.Moved(place))]
        );
    }

    private static void RequireAllPlaced(Block content, PlacedDocument document, LayoutSession session)
    {
        var ledger = new TextLedger(session);
        content.Tell(ledger);
        foreach (var page in document.Pages)
        {
            ledger.Settle(page.Items);
        }
        if (ledger.Unsettled.Count > 0)
        {
            var symbols = string.Join(' ', ledger.Unsettled.Take(20).Select(symbol => $"U+{(int)symbol:X4}"));
            throw new InvalidOperationException($"characters lost or doubled in layout: {symbols}");
        }
    }
}
