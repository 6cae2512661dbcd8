using System.Collections.Immutable;

namespace ServiceRules.Formats.SafeWork;

/// <summary>A record that stands with different content in several files, so that none of them is judged.</summary>
/// <param name="Record">Its identity.</param>
/// <param name="Files">Names of the files, without their folders; of very many the first.</param>
public sealed record ContradictingRecord(string Record, ImmutableArray<string> Files);
