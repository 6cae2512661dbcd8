using System.Collections.Immutable;

namespace ServiceRules.Application.Ledger;

/// <summary>Why something may not be filed.</summary>
/// <param name="What">What is wrong, with the value found.</param>
/// <param name="Accepted">What would be accepted.</param>
public sealed record FilingRefusal(string What, string Accepted)
{
    /// <summary>The entry that stands in the way; null when none does.</summary>
    public FiledEntry? Standing { get; init; }

    /// <summary>Whether what was sent is unfit, whatever stands.</summary>
    public bool IsUnfit { get; init; }

    /// <summary>How the content differs from the one that stands in the way.</summary>
    public ImmutableArray<JsonChange> Differences { get; init; } = [];

    /// <summary>Another site has a record of the identity: nothing of it is told.</summary>
    internal static FilingRefusal Taken { get; } =
        new("something else stands under this identity", "another identity");

    internal static FilingRefusal NothingToAmend(string id) =>
        new($"no record `{id}` is filed, so there is nothing to amend", "the identity of a filed record");

    public override string ToString() => $"{What}; accepted: {Accepted}";
}
