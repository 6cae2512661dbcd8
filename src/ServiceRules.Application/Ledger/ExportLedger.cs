using System.Text;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Ledger;

/// <summary>
/// Writes a log as plain files that ordinary tools read: entries, contents, checkpoints and key. Entries name people by
/// pseudonym; contents are as they were filed, with the people that they name.
/// </summary>
public sealed class ExportLedger(ILedgerReading log, NoteKey key)
{
    /// <summary>Writes into a folder that is new or empty, and tells how many entries and contents there were.</summary>
    public (long Entries, long Contents) To(string folder)
    {
        Directory.CreateDirectory(folder);
        var entries = Entries(Path.Combine(folder, ExportFiles.Entries));
        var contents = Contents(folder);
        Write(folder, ExportFiles.Checkpoints, NoteSequence.Join(log.Checkpoints()));
        if (log.Head is { } head)
        {
            Write(folder, ExportFiles.Head, head.Note);
        }

        Write(folder, ExportFiles.KeyPem, key.ToPem());
        Write(folder, ExportFiles.KeyLine, key + "\n");
        return (entries, contents);
    }

    private long Entries(string path)
    {
        using var file = File.Create(path);
        var count = 0L;
        foreach (var entry in log.Entries(0))
        {
            file.Write(entry.Bytes.Span);
            file.WriteByte((byte)'\n');
            count++;
        }

        return count;
    }

    private long Contents(string folder)
    {
        Directory.CreateDirectory(Path.Combine(folder, ExportFiles.Contents));
        using var hashes = new StreamWriter(Path.Combine(folder, ExportFiles.ContentHashes))
        {
            NewLine = "\n",
        };
        var count = 0L;
        foreach (var hash in log.Contents())
        {
            var name = Convert.ToHexStringLower(hash.ToBytes());
            var content = log.Content(hash)!.Value;
            File.WriteAllBytes(Path.Combine(folder, ExportFiles.Contents, name), content.Span);
            hashes.WriteLine($"{name}  {ExportFiles.Contents}/{name}");
            count++;
        }

        return count;
    }

    private static void Write(string folder, string name, string text) =>
        File.WriteAllText(Path.Combine(folder, name), text, new UTF8Encoding(false));
}
