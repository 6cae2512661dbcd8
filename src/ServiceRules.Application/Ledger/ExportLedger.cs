using System.Text;
using ServiceRules.Application.Filed;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Ledger;

/// <summary>
/// Writes a log as plain files that ordinary tools read: entries, contents, checkpoints and key. Entries name people by
/// pseudonym; contents are as they were filed, with the people that they name, so that the files are for their owner
/// alone until somebody hands them on. On return they have reached the disk.
/// </summary>
public sealed class ExportLedger(ILedgerReading log, NoteKey key)
{
    /// <summary>Writes into a folder that is new or empty, and tells how many entries and contents there were.</summary>
    public (long Entries, long Contents) To(string folder)
    {
        var isThere = Directory.Exists(folder);
        // One that is there stays as it is: some disks that are carried about know no modes.
        PrivateFolder.Begin(folder);
        try
        {
            return Files(folder);
        }
        catch
        {
            // It was new or empty, so that everything in it is of this export.
            foreach (var one in new DirectoryInfo(folder).EnumerateDirectories())
            {
                one.Delete(recursive: true);
            }

            foreach (var one in new DirectoryInfo(folder).EnumerateFiles())
            {
                one.Delete();
            }

            if (!isThere)
            {
                Directory.Delete(folder);
            }

            throw;
        }
    }

    private (long Entries, long Contents) Files(string folder)
    {
        var entries = Entries(Path.Combine(folder, ExportFiles.Entries));
        var contents = Contents(folder);
        Write(folder, ExportFiles.KeyPem, key.ToPem());
        Write(folder, ExportFiles.KeyLine, key + "\n");
        Write(folder, ExportFiles.Checkpoints, NoteSequence.Join(log.Checkpoints()));
        // Last: an export that was broken off has none, and is not sound.
        if (log.Head is { } head)
        {
            Write(folder, ExportFiles.Head, head.Note);
        }

        DurableFile.SyncFolder(folder);
        return (entries, contents);
    }

    private long Entries(string path)
    {
        using var file = DurableFile.New(path, DurableFile.Private);
        var count = 0L;
        foreach (var entry in log.Entries(0))
        {
            file.Write(entry.Bytes.Span);
            file.WriteByte((byte)'\n');
            count++;
        }

        file.Flush(flushToDisk: true);
        return count;
    }

    private long Contents(string folder)
    {
        var contents = Path.Combine(folder, ExportFiles.Contents);
        PrivateFolder.Begin(contents);
        var hashes = new StringBuilder();
        var count = 0L;
        foreach (var hash in log.Contents())
        {
            var name = Convert.ToHexStringLower(hash.ToBytes());
            Write(Path.Combine(contents, name), log.Content(hash)!.Value.Span);
            hashes.Append(ExportFiles.HashLine(name));
            count++;
        }

        DurableFile.SyncFolder(contents);
        Write(folder, ExportFiles.ContentHashes, hashes.ToString());
        return count;
    }

    private static void Write(string folder, string name, string text) =>
        Write(Path.Combine(folder, name), Encoding.UTF8.GetBytes(text));

    private static void Write(string path, ReadOnlySpan<byte> content)
    {
        using var file = DurableFile.New(path, DurableFile.Private);
        file.Write(content);
        file.Flush(flushToDisk: true);
    }
}
