using System.Collections.Immutable;

namespace ServiceRules.Application.Importing;

/// <summary>What came of reading a file as a table.</summary>
public abstract record TableOutcome
{
    private TableOutcome() { }

    /// <summary>It was read.</summary>
    public sealed record Read(Table Table) : TableOutcome;

    /// <summary>It is no table that can be trusted to be whole; nothing of it is used.</summary>
    public sealed record Refused(ImmutableArray<RowProblem> Problems) : TableOutcome
    {
        public Refused(string what, string accepted)
            : this([new RowProblem(0, null, what, "", accepted)]) { }
    }
}
