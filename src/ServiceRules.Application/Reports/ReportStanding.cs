namespace ServiceRules.Application.Reports;

/// <summary>How a report stands.</summary>
public enum ReportStanding
{
    /// <summary>Intact, signed by a trusted certificate, complete, its verdict reproduced and its pages true to it.</summary>
    Genuine,

    /// <summary>As genuine in everything but one: nobody here said that the signing certificate is to be trusted.</summary>
    SignerNotTrusted,

    /// <summary>Nothing failed, and something can be told neither way: of another version, or stamped by an authority not trusted here.</summary>
    NotEstablished,

    /// <summary>At least one other point failed.</summary>
    NotGenuine,

    /// <summary>Not a file that could be looked at.</summary>
    Unreadable,
}
