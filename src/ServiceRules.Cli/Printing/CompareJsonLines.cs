using System.Collections.Immutable;
using ServiceRules.Application.Comparing;
using ServiceRules.Application.Filed;
using ServiceRules.Cli.Setup;

namespace ServiceRules.Cli.Printing;

/// <summary>A comparison for other programs, a line at a time.</summary>
internal sealed class CompareJsonLines(Session session) : ICompareTelling
{
    public void Heading(string old, string now, ImmutableArray<FolderChange> changes) =>
        session.Output.WriteLine(CompareJson.Of(changes));

    public void Record(RecordCompared compared)
    {
        if (compared.HasChanged)
        {
            session.Output.WriteLine(CompareJson.Of(compared));
        }
    }

    public void Totals(ComparedTotals totals, FilesRead files) =>
        session.Output.WriteLine(CompareJson.Of(totals, files));
}
