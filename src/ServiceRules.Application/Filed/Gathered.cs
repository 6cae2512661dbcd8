using System.Collections.Immutable;

namespace ServiceRules.Application.Filed;

/// <summary>What came of looking through files.</summary>
/// <typeparam name="T">What was kept of a record.</typeparam>
/// <param name="Kept">What was kept, by day and then identity of the record.</param>
/// <param name="Problems">Files that could not be used, as they were met.</param>
/// <param name="Records">Different records read, kept or not.</param>
/// <param name="Repeated">Files that hold a record which another file holds just so: counted once.</param>
/// <param name="Superseded">Files that hold an earlier stage of a job which another file holds further on.</param>
public sealed record Gathered<T>(
    ImmutableArray<T> Kept,
    ImmutableArray<FiledProblem> Problems,
    int Records,
    int Repeated,
    int Superseded
);
