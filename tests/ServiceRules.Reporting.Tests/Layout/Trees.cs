using System.Collections.Immutable;
using FsCheck;
using FsCheck.Fluent;
using ServiceRules.Reporting.Layout;

namespace ServiceRules.Reporting.Tests.Layout;

/// <summary>Random layout trees, each with the text that was put in.</summary>
internal static class Trees
{
    private static readonly TextStyle Style = new(Face.Text, 10, Ink.Black, 1.2);

    private static readonly Gen<string> Texts = Gen.ListOf(
            Gen.Frequency(
                (12, Gen.Elements("gap", "left", "0.025 mm", "reel-to-bedknife", "a")),
                (2, Gen.Elements("\n", "  ", "\t")),
                (1, Gen.Elements("\U0001F600", "\u202E", new string('w', 90)))
            )
        )
        .Select(words => string.Join(' ', words));

    private static readonly Gen<(Block Block, string Text)> Leaf = Gen.Frequency(
        (6, Texts.Select(text => ((Block)new Paragraph(text, Style, Align.Centre), text))),
        (2, Texts.Select(text => ((Block)Paragraph.Heading(2, text, Style), text))),
        (1, Gen.Constant(((Block)new Gap(30), ""))),
        (1, Gen.Constant(((Block)new HorizontalRule(new Stroke(Ink.Black, 1)), ""))),
        (1, Gen.Constant(((Block)new PageBreak(), "")))
    );

    public static Gen<(Block Block, string Text)> Any { get; } = Of(3);

    private static Gen<(Block Block, string Text)> Of(int depth)
    {
        if (depth == 0)
        {
            return Leaf;
        }
        var some = Gen.ListOf(Of(depth - 1)).Select(list => list.Take(5).ToImmutableArray());
        return Gen.Frequency(
            (2, Leaf),
            (3, some.Select(list => ((Block)new Stack(Blocks(list), 4), Text(list)))),
            (2, Of(depth - 1).Select(one => ((Block)new Together(one.Block), one.Text))),
            (2, Of(depth - 1).Select(one => ((Block)new Frame(one.Block, Box()), one.Text))),
            (2, Of(depth - 1).Two().Select(AsRow)),
            (2, some.Select(list => ((Block)AsTable(list), Text(list))))
        );
    }

    private static FrameStyle Box() =>
        new(6, 3)
        {
            Fill = Ink.White,
            Bar = Ink.Black,
            BarWidth = 2,
        };

    private static (Block, string) AsRow(((Block Block, string Text) A, (Block Block, string Text) B) two) =>
        (
            new Row(
                [
                    new Column(ColumnWidth.Fixed(40), two.A.Block),
                    new Column(ColumnWidth.Share(), two.B.Block, Centred: true),
                ],
                5
            ),
            two.A.Text + two.B.Text
        );

    private static Table AsTable(ImmutableArray<(Block Block, string Text)> list) =>
        new Table(
            [ColumnWidth.Share(2), ColumnWidth.Fixed(50)],
            null,
            [.. list.Select(one => new TableRow([one.Block, new Gap(5)]))],
            new TableStyle(3, 2, new Stroke(Ink.Black, 0.5))
        );

    private static ImmutableArray<Block> Blocks(ImmutableArray<(Block Block, string Text)> list) =>
        [.. list.Select(one => one.Block)];

    private static string Text(ImmutableArray<(Block Block, string Text)> list) =>
        string.Concat(list.Select(one => one.Text));
}
