namespace ServiceRules.Reporting.Verifying;

/// <summary>Bounds on what a check reads. Reports are far below all of them.</summary>
public static class VerificationLimits
{
    /// <summary>The largest file looked at: a season of photos stays outside the report.</summary>
    public const int BytesMax = 64 * 1024 * 1024;

    /// <summary>Objects in one file; a page takes about ten, a tagged table cell two.</summary>
    public const int ObjectsMax = 200_000;

    /// <summary>Values in one file: a report has seven to an object.</summary>
    public const int ValuesMax = 2_000_000;

    /// <summary>Nesting of arrays and dictionaries; the writer needs six.</summary>
    public const int DepthMax = 24;

    public const int AttachmentsMax = 64;

    /// <summary>Bytes of the signature with its certificates and whatever proves its time.</summary>
    public const int ContainerBytesMax = 64 * 1024;
}
