using System.Collections.Immutable;

namespace ServiceRules.Formats.SafeWork;

/// <summary>Files that were looked at and are not among the jobs of a period.</summary>
/// <param name="Unusable">Could not be read, or contradict themselves or one another.</param>
/// <param name="Repeated">Hold a record that another file holds just so.</param>
/// <param name="Superseded">Hold an earlier stage of a job that another file holds further on.</param>
/// <param name="Outside">Records of another day than those of the period.</param>
public sealed record LeftOut(int Unusable, int Repeated, int Superseded, int Outside)
{
    /// <summary>Names of those that could not be used, without their folders; of very many the first.</summary>
    public ImmutableArray<string> Names { get; init; } = [];

    /// <summary>Files that hold different records of one identity, none of which is judged; of very many the first.</summary>
    public ImmutableArray<ContradictingRecord> Contradicting { get; init; } = [];
}
