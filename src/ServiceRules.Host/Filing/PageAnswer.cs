namespace ServiceRules.Host.Filing;

/// <summary>One page of a list.</summary>
/// <param name="Items">Its rows.</param>
/// <param name="Next">Where the next page begins, for <c>after</c>; left out on the last.</param>
internal sealed record PageAnswer<T>(IReadOnlyList<T> Items, string? Next);
