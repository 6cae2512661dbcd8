using ServiceRules.Evidence.Log;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Cli.Setup;

/// <summary>Where what a log gives out may be written: nothing else is written over.</summary>
internal static class LogTextPlace
{
    /// <exception cref="InputException">There is a file that no log gave out.</exception>
    public static void Check(FileInfo? target)
    {
        if (target is not null)
        {
            InputFile.CheckPlace(
                target.FullName,
                SignedNote.BytesMost,
                IsOfALog,
                "checkpoint, proof or entry of a log"
            );
        }
    }

    private static bool IsOfALog(byte[] bytes) =>
        SignedCheckpoint.TryParse(bytes, out _, out _)
        || GrowthProof.TryParse(bytes, out _, out _)
        || TlogProof.TryParse(bytes, out _, out _)
        || LedgerEntryFormat.Current.Read(bytes).TryGet(out _, out _);
}
