using ServiceRules.Evidence;

namespace ServiceRules.Application.Ledger;

/// <summary>Finds what a filing would bring back that an erasure removed, in itself or in what it is about.</summary>
internal static class ReturnedContent
{
    /// <summary>Null where nothing comes back.</summary>
    /// <param name="erased">What was removed, whyever.</param>
    /// <param name="forgotten">What of it names somebody who was forgotten.</param>
    /// <param name="plan">The filing.</param>
    public static FilingRefusal? RefusalOf(
        IReadOnlySet<ContentHash> erased,
        IReadOnlySet<ContentHash> forgotten,
        FilingPlan.File plan
    )
    {
        if (erased.Count == 0)
        {
            return null;
        }

        // What is kept beside went with the last record that rested on it. Where its time alone was over, another record that comes
        // later may rest on the same registers.
        var back = plan
            .Parts.SelectMany(Named)
            .Where(erased.Contains)
            .Concat(plan.Beside.Select(content => ContentHash.Of(content.Span)).Where(forgotten.Contains))
            .Select(hash => hash.ToString())
            .FirstOrDefault();
        return back is null
            ? null
            : new(
                $"it would bring back what an erasure removed, first `{back}`, or what tells of it",
                "a version that does not name who was forgotten, or --bring-back"
            );
    }

    private static IEnumerable<ContentHash> Named(FilingPart part) =>
        part switch
        {
            FilingPart.New { Draft: var draft } => draft.Of is { } of ? [draft.Hash, of] : [draft.Hash],
            FilingPart.Standing { Entry.Entry.Content: var text }
                when ContentHash.TryParse(text, out var hash) => [hash],
            _ => [],
        };
}
