using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Filed;

namespace ServiceRules.Application.Comparing;

/// <summary>The records that a comparison will judge: which files, and what they show of locks and people.</summary>
public sealed class RecordsGathered
{
    internal RecordsGathered(
        FilesRead files,
        ImmutableArray<string> paths,
        Func<RuleSide, WorkElsewhere> others
    )
    {
        Files = files;
        Paths = paths;
        Others = others;
    }

    /// <summary>What the answer rests on.</summary>
    public FilesRead Files { get; }

    /// <summary>The files, by day and identity of their records.</summary>
    public ImmutableArray<string> Paths { get; }

    internal Func<RuleSide, WorkElsewhere> Others { get; }
}
