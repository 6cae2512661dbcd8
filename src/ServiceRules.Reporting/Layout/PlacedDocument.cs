using System.Collections.Immutable;

namespace ServiceRules.Reporting.Layout;

/// <summary>A laid-out document: pages of placed marks, ready to be painted.</summary>
public sealed record PlacedDocument(ImmutableArray<PlacedPage> Pages)
{
    /// <summary>Every text run in reading order, running heads and feet, and what is repeated, left out.</summary>
    public IEnumerable<Placed.Text> Texts() => Pages.SelectMany(page => TextsOf(page.Items));

    private static IEnumerable<Placed.Text> TextsOf(ImmutableArray<Placed> items) =>
        items.SelectMany(item =>
            item switch
            {
                Placed.Text text => [text],
                Placed.Group { Role: not StructureRole.Artifact, IsRepeated: false } group => TextsOf(
                    group.Children
                ),
                _ => Enumerable.Empty<Placed.Text>(),
            }
        );
}
