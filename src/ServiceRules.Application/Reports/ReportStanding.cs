namespace ServiceRules.Application.Reports;

/// <summary>How a report stands.</summary>
public enum ReportStanding
{
    /// <summary>Intact, signed by a trusted certificate, complete, and its verdict reproduced.</summary>
    Genuine,

    /// <summary>As genuine in everything but one: nobody here said that the signing certificate is to be trusted.</summary>
    SignerNotTrusted,

    /// <summary>At least one other point failed.</summary>
    NotGenuine,

    /// <summary>Not a file that could be looked at.</summary>
    Unreadable,
}
