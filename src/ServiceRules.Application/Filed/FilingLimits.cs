namespace ServiceRules.Application.Filed;

/// <summary>How much is looked through at once.</summary>
internal static class FilingLimits
{
    /// <summary>Files. A large shop writes some thousands of records a year; ten years of them fit.</summary>
    public const int Files = 50_000;

    /// <summary>Folders within one another: year, month, machine, and some to spare.</summary>
    public const int Depth = 8;

    /// <summary>Bytes of a signed report: what its reader accepts at most.</summary>
    public const int ReportBytes = 64 * 1024 * 1024;
}
