namespace ServiceRules.Application.Reports;

/// <summary>How standings and results are spelled for other programs; the words stay.</summary>
public static class ReportWords
{
    public static string Of(ReportStanding standing) =>
        standing switch
        {
            ReportStanding.Genuine => "genuine",
            ReportStanding.SignerNotTrusted => "signer-not-trusted",
            ReportStanding.NotEstablished => "not-established",
            ReportStanding.NotGenuine => "not-genuine",
            _ => "unreadable",
        };

    public static string Of(PointResult result) =>
        result switch
        {
            PointResult.Passed => "passed",
            PointResult.Failed => "failed",
            PointResult.NotReached => "not-reached",
            PointResult.NotEstablished => "not-established",
            _ => "not-claimed",
        };
}
