using System.Globalization;
using System.Text;
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

    public string Place => folder;

    /// <summary>Where the checkpoints of a ledger are kept unless another place is named: beside its folder.</summary>
    public static string Beside(string ledger) =>
        Path.TrimEndingDirectorySeparator(Path.GetFullPath(ledger)) + LedgerEnding;

    public IEnumerable<ShelvedCheckpoint> All() =>
        Directory.Exists(folder)
            ? Directory
                .EnumerateFiles(folder)
                .Order(StringComparer.Ordinal)
                .SelectMany(file =>
                    NoteSequence
                        .Split(Text(file))
                        // What bears no signature is some other file that came to lie here; in our own it is damage.
                        .Where(note => IsOwn(file) || NoteSequence.IsSigned(note))
                        .Select(
                            (note, at) =>
                                new ShelvedCheckpoint(
                                    string.Create(
                                        CultureInfo.InvariantCulture,
                                        $"{file}, checkpoint {at + 1}"
                                    ),
                                    note
                                )
                        )
                )
            : [];

    public void Add(string note)
    {
        try
        {
            Directory.CreateDirectory(folder);
            using var file = ExclusiveFile.Open(Path.Combine(folder, FileName));
            file.SetLength(Whole(file));
            file.Seek(0, SeekOrigin.End);
            file.Write(Encoding.UTF8.GetBytes(NoteSequence.Join([note])));
            file.Flush(flushToDisk: true);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw new LedgerStoreException(
                StoreTrouble.Failed,
                $"it is filed, but its checkpoint cannot be kept in `{folder}`: {failure.Message}",
                failure
            );
        }
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

        var text = Encoding.UTF8.GetString(ExclusiveFile.Read(file));
        return IsOwn(file) ? text[..NoteSequence.WholeLength(text)] : text;
    }

    // Only the end is looked at: a note is short, and the file may be long.
    private static long Whole(FileStream file)
    {
        var length = (int)Math.Min(file.Length, TailBytes);
        var tail = Bytes(file, length);
        var start = length == file.Length ? 0 : tail.AsSpan().IndexOf((byte)'\n') + 1;
        var whole = WholeBytes(tail.AsSpan(start));
        return whole > 0 || length == file.Length
            ? file.Length - length + start + whole
            : WholeBytes(Bytes(file, (int)file.Length));
    }

    private static byte[] Bytes(FileStream file, int last)
    {
        var bytes = new byte[last];
        file.Seek(-last, SeekOrigin.End);
        file.ReadExactly(bytes);
        return bytes;
    }

    private static int WholeBytes(ReadOnlySpan<byte> utf8)
    {
        var text = Encoding.UTF8.GetString(utf8);
        return Encoding.UTF8.GetByteCount(text.AsSpan(0, NoteSequence.WholeLength(text)));
    }
}
