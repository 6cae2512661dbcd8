namespace ServiceRules.Host.Pages;

/// <summary>Standings of reports as a page tells them.</summary>
internal static class ShownStanding
{
    public static string WordOf(string standing) =>
        standing switch
        {
            "genuine" => "Genuine",
            "signer-not-trusted" => "Intact, signer not trusted here",
            "not-established" => "Intact, not all established",
            "not-genuine" => "Not genuine",
            _ => "Not a file that could be looked at",
        };

    public static string MeaningOf(string standing) =>
        standing switch
        {
            "genuine" =>
                "Nothing was changed since it was signed here, its verdict follows again from what it carries, and its pages show just that.",
            "signer-not-trusted" =>
                "Nothing was changed since it was signed, but not with a key of this service: that says nothing about who signed it.",
            "not-established" =>
                "Nothing failed, and something can be told neither way; the points say what.",
            "not-genuine" => "Do not rely on it. The points that failed say why.",
            _ => "A signed report in PDF is looked at here.",
        };

    public static string ResultOf(string result) =>
        result switch
        {
            "passed" => "good",
            "failed" => "FAILED",
            "not-reached" => "not looked at",
            "not-established" => "not known",
            _ => "not claimed",
        };
}
