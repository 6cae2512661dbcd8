using System.Collections.Immutable;

namespace ServiceRules.Reporting.Layout;

/// <summary>Running text. Breaks between lines, never leaving a single line alone where that can be helped.</summary>
public sealed class Paragraph : Block
{
    private readonly ImmutableArray<Span> _spans;
    private readonly Align _align;
    private readonly StructureRole _role;

    public Paragraph(
        ImmutableArray<Span> spans,
        Align align = Align.Left,
        StructureRole role = StructureRole.Paragraph
    )
    {
        _spans = spans;
        _align = align;
        _role = role;
    }

    public Paragraph(string content, TextStyle style, Align align = Align.Left)
        : this([new Span(content, style)], align) { }

    /// <summary>A heading of level 1, 2 or 3; it stays with what follows.</summary>
    public static Paragraph Heading(int level, string content, TextStyle style) =>
        new(
            [new Span(content, style)],
            Align.Left,
            level switch
            {
                1 => StructureRole.Heading1,
                2 => StructureRole.Heading2,
                _ => StructureRole.Heading3,
            }
        );

    internal override bool KeepsWithNext =>
        _role is StructureRole.Heading1 or StructureRole.Heading2 or StructureRole.Heading3;

    internal override Fragment Fit(Space space) =>
        new LineRun(space.Session.Lines(_spans, space.Width), _align, _role).Fit(space);

    internal override void Tell(TextLedger ledger)
    {
        foreach (var span in _spans)
        {
            ledger.Owe(span.Content, span.Style.Face);
        }
    }
}
