using Spectre.Console;
using Spectre.Console.Rendering;

namespace ServiceRules.Cli.Printing;

/// <summary>The same for a console that colours its text: its own commands pass, those in the text do not.</summary>
internal sealed class SeenSegments : IRenderHook
{
    public IEnumerable<IRenderable> Process(RenderOptions options, IEnumerable<IRenderable> renderables) =>
        renderables.Select(one => new Seen(one));

    private sealed class Seen(IRenderable inner) : IRenderable
    {
        public Measurement Measure(RenderOptions options, int maxWidth) => inner.Measure(options, maxWidth);

        public IEnumerable<Segment> Render(RenderOptions options, int maxWidth) =>
            inner
                .Render(options, maxWidth)
                .Select(segment =>
                    segment.IsControlCode || segment.IsLineBreak || SeenText.Of(segment.Text) == segment.Text
                        ? segment
                        : new Segment(SeenText.Of(segment.Text), segment.Style)
                );
    }
}
