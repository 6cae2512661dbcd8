using ServiceRules.Application.Ledger;

namespace ServiceRules.Host.Filing;

/// <summary>What came of asking for a report.</summary>
internal abstract record ReportAnswer
{
    private ReportAnswer() { }

    public sealed record Issued(FiledReport Report) : ReportAnswer;

    /// <summary>No such record is filed.</summary>
    public sealed record NotFiled : ReportAnswer;

    /// <summary>What it would tell is no longer kept, or cannot be told here.</summary>
    public sealed record NotKept(string Why) : ReportAnswer;

    /// <summary>There is no usable key.</summary>
    public sealed record NoKey : ReportAnswer;
}
