using System.Collections.Immutable;

namespace ServiceRules.Application.Filed;

/// <summary>A file that could not be used, and every reason why.</summary>
/// <param name="File">The file or folder, as it was named.</param>
/// <param name="Lines">Each with place, value found and what would be accepted.</param>
public sealed record FiledProblem(string File, ImmutableArray<string> Lines);
