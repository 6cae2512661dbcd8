using System.Collections.Immutable;
using ServiceRules.Application.Comparing;
using ServiceRules.Application.Filed;

namespace ServiceRules.Cli.Printing;

/// <summary>Tells a comparison as it goes on.</summary>
internal interface ICompareTelling
{
    void Heading(string old, string now, ImmutableArray<FolderChange> changes);

    void Record(RecordCompared compared);

    void Totals(ComparedTotals totals, FilesRead files);
}
