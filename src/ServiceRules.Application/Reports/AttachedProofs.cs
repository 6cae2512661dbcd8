using System.Text;

namespace ServiceRules.Application.Reports;

/// <summary>The files of a report that speak of the log.</summary>
internal static class AttachedProofs
{
    public static readonly string[] Names =
    [
        FilingProofs.AssessmentEntryName,
        FilingProofs.AssessmentProofName,
        FilingProofs.LogKeyName,
        FilingProofs.RecordEntryName,
        FilingProofs.RecordProofName,
    ];

    public static readonly string[] NamesWithNewer =
    [
        .. Names,
        FilingProofs.NewerEntryName,
        FilingProofs.NewerProofName,
    ];

    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, true);

    /// <summary>The proofs; neither proofs nor fault when the report carries none.</summary>
    public static (FilingProofs? Proofs, string? Fault) Read(IReadOnlyDictionary<string, byte[]> files)
    {
        if (!files.ContainsKey(FilingProofs.LogKeyName))
        {
            return (null, null);
        }

        try
        {
            return (
                new FilingProofs(
                    files[FilingProofs.RecordEntryName],
                    Strict.GetString(files[FilingProofs.RecordProofName]),
                    files[FilingProofs.AssessmentEntryName],
                    Strict.GetString(files[FilingProofs.AssessmentProofName]),
                    Strict.GetString(files[FilingProofs.LogKeyName])
                )
                {
                    Newer = files.TryGetValue(FilingProofs.NewerEntryName, out var newer)
                        ? new FiledNewer(newer, Strict.GetString(files[FilingProofs.NewerProofName]))
                        : null,
                },
                null
            );
        }
        catch (DecoderFallbackException)
        {
            return (null, "a proof or the log's key is not text in UTF-8");
        }
    }
}
