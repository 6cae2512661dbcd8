namespace ServiceRules.Application.Reports;

/// <summary>How a report stands.</summary>
public enum ReportStanding
{
    /// <summary>Intact, signed by a trusted certificate, complete, and its verdict reproduced.</summary>
    Genuine,

    /// <summary>At least one point failed.</summary>
    NotGenuine,

    /// <summary>Not a file that could be looked at.</summary>
    Unreadable,
}
