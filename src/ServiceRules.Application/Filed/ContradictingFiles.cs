using System.Collections.Immutable;

namespace ServiceRules.Application.Filed;

/// <summary>Files that hold one record with different content: which of them is true, they do not tell.</summary>
/// <param name="Record">The identity that they share.</param>
/// <param name="Files">The files, as they were named.</param>
public sealed record ContradictingFiles(string Record, ImmutableArray<string> Files);
