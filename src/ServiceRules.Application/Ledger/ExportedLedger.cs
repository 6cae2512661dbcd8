using System.Collections.Immutable;
using System.Text;
using ServiceRules.Application.Filed;
using ServiceRules.Evidence;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Ledger;

/// <summary>A log as it was exported, read without its database. Nothing in it is believed here.</summary>
public sealed class ExportedLedger : ILedgerReading
{
    private readonly string folder;
    private readonly List<StoredEntry> entries = [];
    private readonly Lazy<ILookup<string, long>> bySubject;

    private ExportedLedger(string folder)
    {
        this.folder = folder;
        bySubject = new(() =>
            entries
                .Select(stored => EntryReading.TryRead(stored, out var entry, out _) ? entry : null)
                .OfType<FiledEntry>()
                .ToLookup(entry => entry.Entry.Subject, entry => entry.Index, StringComparer.Ordinal)
        );
    }

    public LedgerHead? Head
    {
        get
        {
            if (!File.Exists(At(ExportFiles.Head)))
            {
                return null;
            }

            var note = Text(ExportFiles.Head, ExportFiles.EntryBytes);
            return SignedCheckpoint.TryParse(Encoding.UTF8.GetBytes(note), out var checkpoint, out _)
                ? new LedgerHead(checkpoint.Head.Size, checkpoint.Head.Root, note)
                // What is no checkpoint speaks of nothing, and is refused where its signature is looked at.
                : new LedgerHead(0, MerkleTree.EmptyRoot, note);
        }
    }

    /// <summary>Opens an exported folder, or the one of the file of entries given.</summary>
    /// <exception cref="IOException">A file is not there, is too large or cannot be read.</exception>
    public static ExportedLedger Open(string path)
    {
        var exported = new ExportedLedger(
            File.Exists(path) ? Path.GetDirectoryName(Path.GetFullPath(path))! : path
        );
        exported.ReadEntries();
        return exported;
    }

    /// <summary>The key that came with the export: it says who signed, not whether to trust them.</summary>
    /// <exception cref="IOException">There is none that can be read.</exception>
    public NoteKey Key() =>
        NoteKey.TryParse(
            Text(ExportFiles.KeyLine, ExportFiles.EntryBytes).TrimEnd('\n'),
            out var key,
            out var fault
        )
            ? key
            : throw new IOException($"{ExportFiles.KeyLine}: {fault}");

    /// <summary>What is said again for ordinary tools, and says something else than the files it is about.</summary>
    /// <exception cref="IOException">A file is not there, or cannot be read.</exception>
    public ImmutableArray<LedgerFault> Repetitions()
    {
        var faults = ImmutableArray.CreateBuilder<LedgerFault>();
        if (Text(ExportFiles.KeyPem, ExportFiles.EntryBytes) != Key().ToPem())
        {
            faults.Add(
                new(LedgerFaultCode.Store, ExportFiles.KeyPem, $"it is not the key in {ExportFiles.KeyLine}")
            );
        }

        var listed = string.Concat(Contents().Select(hash => ExportFiles.HashLine(Name(hash))));
        if (Text(ExportFiles.ContentHashes, ExportFiles.CheckpointBytes) != listed)
        {
            faults.Add(
                new(
                    LedgerFaultCode.Store,
                    ExportFiles.ContentHashes,
                    $"it does not list what is in {ExportFiles.Contents}"
                )
            );
        }

        return faults.ToImmutable();
    }

    public IEnumerable<StoredEntry> Entries(long from) => entries.Skip((int)from);

    public StoredEntry? Entry(long index) => index >= 0 && index < entries.Count ? entries[(int)index] : null;

    public ImmutableArray<long> About(string subject) => [.. bySubject.Value[subject]];

    public ReadOnlyMemory<byte>? Content(ContentHash hash)
    {
        var path = At(Path.Combine(ExportFiles.Contents, Name(hash)));
        return File.Exists(path) ? Bytes(path, ExportFiles.ContentBytes) : default(ReadOnlyMemory<byte>?);
    }

    public IEnumerable<ContentHash> Contents() =>
        Directory.Exists(At(ExportFiles.Contents))
            ? Directory
                .EnumerateFiles(At(ExportFiles.Contents))
                .Select(file => Path.GetFileName(file)!)
                .Order(StringComparer.Ordinal)
                .Select(name =>
                    ContentHash.TryParse("sha256:" + name, out var hash) ? hash : (ContentHash?)null
                )
                .OfType<ContentHash>()
            : [];

    public IEnumerable<string> Checkpoints() =>
        File.Exists(At(ExportFiles.Checkpoints))
            ? NoteSequence.Split(Text(ExportFiles.Checkpoints, ExportFiles.CheckpointBytes))
            : [];

    public string? PseudonymOf(string person) => null;

    public IEnumerable<NamedPerson> People() => [];

    public string? PersonBehind(string pseudonym) => null;

    private void ReadEntries()
    {
        var path = At(ExportFiles.Entries);
        CheckRegular(path, ExportFiles.EntriesBytes);
        using var file = new BufferedStream(File.OpenRead(path));
        var line = new MemoryStream();
        for (var next = file.ReadByte(); next >= 0; next = file.ReadByte())
        {
            if (next == '\n')
            {
                entries.Add(new(entries.Count, line.ToArray()));
                line.SetLength(0);
            }
            else if (line.Length < ExportFiles.EntryBytes)
            {
                line.WriteByte((byte)next);
            }
            else
            {
                throw new IOException(
                    $"{ExportFiles.Entries}: line {entries.Count + 1} is longer than {ExportFiles.EntryBytes} bytes"
                );
            }
        }

        if (line.Length > 0)
        {
            entries.Add(new(entries.Count, line.ToArray()));
        }
    }

    private string Text(string name, int most) => Encoding.UTF8.GetString(Bytes(At(name), most));

    private string At(string name) => Path.Combine(folder, name);

    private static string Name(ContentHash hash) => Convert.ToHexStringLower(hash.ToBytes());

    private static byte[] Bytes(string path, int most)
    {
        CheckRegular(path, most);
        return File.ReadAllBytes(path);
    }

    // A pipe or a device would be waited on.
    private static void CheckRegular(string path, long most)
    {
        if (!RegularFile.Is(path))
        {
            throw new IOException($"`{path}` is no regular file");
        }

        var length = File.Exists(path) ? new FileInfo(path).Length : 0;
        if (length > most)
        {
            throw new IOException(
                $"`{path}` has {LedgerWords.Number(length)} bytes; accepted: at most {LedgerWords.Number(most)}"
            );
        }
    }
}
