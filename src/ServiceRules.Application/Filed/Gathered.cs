using System.Collections.Immutable;

namespace ServiceRules.Application.Filed;

/// <summary>What came of looking through files.</summary>
/// <typeparam name="T">What was kept of a record.</typeparam>
/// <param name="Kept">What was kept, by day and then identity of the record.</param>
/// <param name="Files">The files behind it.</param>
public sealed record Gathered<T>(ImmutableArray<T> Kept, FilesRead Files);
