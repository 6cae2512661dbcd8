namespace ServiceRules.Host.Apis;

/// <summary>A list of documents or parts of them, for the description of the interface.</summary>
/// <param name="Items">All of them.</param>
internal sealed record PartList<T>(IReadOnlyList<T> Items);
