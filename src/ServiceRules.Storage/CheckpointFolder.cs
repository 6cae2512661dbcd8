using System.Globalization;
using System.Text;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Storage;

/// <summary>
/// Checkpoints in a folder of their own, best on another disk or machine. New ones are appended to one file; whatever
/// else lies in the folder is read as well, so that a checkpoint from a mail or a witness counts too.
/// </summary>
public sealed class CheckpointFolder(string folder) : ICheckpointShelf
{
    public const string FileName = "checkpoints.txt";

    private const string LedgerEnding = "-checkpoints";
    private const long BytesMost = 512 * 1024 * 1024;

    /// <summary>Several notes long, cosignatures included.</summary>
    private const int TailBytes = 64 * 1024;

    // Whatever the umask is: others may read what is here, and nobody else writes to it.
    private const UnixFileMode FolderMode =
        DurableFile.Public | UnixFileMode.UserExecute | UnixFileMode.GroupExecute | UnixFileMode.OtherExecute;

    private static readonly byte[] BlankLine = "\n"u8.ToArray();

    public string Place => folder;

    /// <summary>Where the checkpoints of a ledger are kept unless another place is named: beside its folder.</summary>
    public static string Beside(string ledger) =>
        Path.TrimEndingDirectorySeparator(Path.GetFullPath(ledger)) + LedgerEnding;

    public IEnumerable<ShelvedCheckpoint> All() =>
        Directory.Exists(folder)
            ? Directory
                .EnumerateFiles(folder)
                // A pipe would be waited on.
                .Where(RegularFile.Is)
                .Order(StringComparer.Ordinal)
                .SelectMany(Notes)
            : [];

    private static IEnumerable<ShelvedCheckpoint> Notes(string file)
    {
        var text = Text(file);
        // What is no note and no beginning of one is a note like others, for the reader to tell as damage.
        var kept = IsOwn(file) ? NoteSequence.KeptLength(text) ?? text.Length : text.Length;
        var notes = NoteSequence
            .Split(text[..kept])
            // What bears no signature is some other file that came to lie here; in our own it is damage.
            .Where(note => IsOwn(file) || NoteSequence.IsSigned(note))
            .Select(
                (note, at) =>
                    new ShelvedCheckpoint(
                        string.Create(CultureInfo.InvariantCulture, $"{file}, checkpoint {at + 1}"),
                        note
                    )
                    {
                        IsOfOthers = !IsOwn(file),
                    }
            );
        return kept == text.Length
            ? notes
            : notes.Append(
                new ShelvedCheckpoint($"{file}, behind its last checkpoint", text[kept..])
                {
                    IsRemnant = true,
                }
            );
    }

    public void Add(string note)
    {
        try
        {
            Make(folder);
            var path = Path.Combine(folder, FileName);
            var isNew = !File.Exists(path);
            using (var file = ExclusiveFile.Open(path))
            {
                GoToEnd(file);
                file.Write(Encoding.UTF8.GetBytes(NoteSequence.Join([note])));
                file.Flush(flushToDisk: true);
            }

            if (isNew)
            {
                DurableFile.SyncFolder(folder);
            }
        }
        catch (Exception failure)
            when (failure is IOException or UnauthorizedAccessException or NotSupportedException)
        {
            throw new LedgerStoreException(
                StoreTrouble.NotShelved,
                $"it is filed, but its checkpoint cannot be kept in `{folder}`: {failure.Message}",
                failure
            );
        }
    }

    // Its name has to last as long as what is kept in it.
    private static void Make(string folder)
    {
        if (Directory.Exists(folder))
        {
            return;
        }

        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(folder);
        }
        else
        {
            Directory.CreateDirectory(folder, FolderMode);
        }

        DurableFile.SyncAbove(folder);
    }

    private static bool IsOwn(string file) => Path.GetFileName(file) == FileName;

    private static string Text(string file)
    {
        if (new FileInfo(file).Length > BytesMost)
        {
            throw new LedgerStoreException(
                StoreTrouble.Damaged,
                $"`{file}` is larger than {BytesMost} bytes and so no file of checkpoints"
            );
        }

        return Encoding.UTF8.GetString(ExclusiveFile.Read(file));
    }

    // Behind the last note; what a power cut left of another goes, and nothing else does.
    private static void GoToEnd(FileStream file)
    {
        var tail = Tail(file);
        var text = Encoding.UTF8.GetString(tail);
        if (NoteSequence.KeptLength(text) is not { } kept)
        {
            throw new IOException(
                $"`{file.Name}` ends in what is no checkpoint; accepted: the file as it was written, or none"
            );
        }

        file.SetLength(file.Length - tail.Length + Encoding.UTF8.GetByteCount(text.AsSpan(0, kept)));
        file.Seek(0, SeekOrigin.End);
        if (kept > NoteSequence.WholeLength(text))
        {
            file.Write(BlankLine);
        }
    }

    // Only the end is looked at: a note is short, and the file may be long.
    private static byte[] Tail(FileStream file)
    {
        var tail = Bytes(file, (int)Math.Min(file.Length, TailBytes));
        return tail.Length == file.Length ? tail
            : tail[(tail.AsSpan().IndexOf((byte)'\n') + 1)..] is var lines
            && NoteSequence.WholeLength(Encoding.UTF8.GetString(lines)) > 0
                ? lines
            : Bytes(file, (int)file.Length);
    }

    private static byte[] Bytes(FileStream file, int last)
    {
        var bytes = new byte[last];
        file.Seek(-last, SeekOrigin.End);
        file.ReadExactly(bytes);
        return bytes;
    }
}
