using System.Collections.Immutable;

namespace ServiceRules.Application.Filed;

/// <summary>What an answer over many files rests on.</summary>
/// <param name="Problems">Files that could not be used, as they were met.</param>
/// <param name="Records">Different records read.</param>
/// <param name="Repeated">Files that hold a record which another file holds just so: counted once.</param>
/// <param name="Superseded">Files that hold an earlier stage of a job which another file holds further on.</param>
public sealed record FilesRead(
    ImmutableArray<FiledProblem> Problems,
    int Records,
    int Repeated,
    int Superseded
)
{
    /// <summary>Files that hold different records of one identity; none of them is used.</summary>
    public ImmutableArray<ContradictingFiles> Contradicting { get; init; } = [];
}
