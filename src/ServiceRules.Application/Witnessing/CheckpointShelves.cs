using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using ServiceRules.Application.Filed;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Witnessing;

/// <summary>
/// The checkpoints of a witness: for each log a folder with the keys trusted for it and a file for each size. The file
/// of the largest size is the one cosigned last. What cannot be read is never passed over: a witness that forgot could
/// be led back.
/// </summary>
internal sealed class CheckpointShelves(string folder, NoteKey witness)
{
    public const string FolderName = "logs";

    private const string KeysFile = "log.vkey";
    private const string Extension = ".checkpoint";
    private const int KeyBytesMost = 64 * 1024;

    private string Root => Path.Combine(folder, FolderName);

    public IReadOnlyList<StoredLog> All() =>
        Directory.Exists(Root)
            ?
            [
                .. Directory
                    .EnumerateDirectories(Root)
                    .Where(shelf => File.Exists(Path.Combine(shelf, KeysFile)))
                    .Select(shelf => Read(Keys(shelf)[0].Name))
                    .OrderBy(log => log.Origin, StringComparer.Ordinal),
            ]
            : [];

    public StoredLog Read(string origin)
    {
        var shelf = ShelfOf(origin);
        if (!File.Exists(Path.Combine(shelf, KeysFile)))
        {
            return new StoredLog(origin, [], null, null, 0);
        }

        var files = Directory.GetFiles(shelf, "*" + Extension).Order(StringComparer.Ordinal).ToList();
        var keys = Keys(shelf);
        if (files.Count == 0)
        {
            return new StoredLog(origin, keys, null, null, 0);
        }

        var (latest, at) = ReadNote(files[^1], origin);
        return new StoredLog(origin, keys, latest, at, files.Count);
    }

    /// <summary>On return it has reached the disk.</summary>
    public void Store(WitnessedLog known, SignedCheckpoint checkpoint)
    {
        var shelf = ShelfOf(known.Origin);
        Directory.CreateDirectory(shelf);
        DurableFile.SyncFolder(Root);
        DurableFile.SyncFolder(folder);
        if (!File.Exists(Path.Combine(shelf, KeysFile)))
        {
            DurableFile.Write(
                Path.Combine(shelf, KeysFile),
                Encoding.UTF8.GetBytes(string.Concat(known.Keys.Select(key => $"{key}\n")))
            );
        }

        DurableFile.Write(
            Path.Combine(shelf, NameOf(checkpoint.Head.Size)),
            Encoding.UTF8.GetBytes(checkpoint.ToString())
        );
    }

    // A log's name may be no file's name.
    private string ShelfOf(string origin) =>
        Path.Combine(Root, Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(origin)))[..32]);

    // As many digits as the largest size has, so that the order of names is the order of sizes.
    private static string NameOf(long size) => size.ToString("d19", CultureInfo.InvariantCulture) + Extension;

    private static ImmutableArray<NoteKey> Keys(string shelf)
    {
        var path = Path.Combine(shelf, KeysFile);
        var keys = ImmutableArray.CreateBuilder<NoteKey>();
        foreach (var line in Encoding.UTF8.GetString(Bytes(path, KeyBytesMost)).TrimEnd('\n').Split('\n'))
        {
            if (!NoteKey.TryParse(line, out var key, out var fault))
            {
                throw new WitnessFolderException($"`{path}`: {fault}");
            }

            keys.Add(key);
        }

        return keys.ToImmutable();
    }

    private (SignedCheckpoint Note, DateTimeOffset? At) ReadNote(string path, string origin)
    {
        if (!SignedCheckpoint.TryParse(Bytes(path, SignedNote.BytesMost), out var note, out var faults))
        {
            throw new WitnessFolderException($"`{path}` is damaged: {faults[0]}");
        }

        var verdict = note.Note.Verify([witness]);
        return
            verdict.IsTrusted
            && note.Head.Origin == origin
            && Path.GetFileName(path) == NameOf(note.Head.Size)
            ? (note, verdict.Verified[^1].CosignedAt)
            : throw new WitnessFolderException(
                $"`{path}` is not what this witness cosigned for `{origin}`; accepted: the file as it was stored"
            );
    }

    private static byte[] Bytes(string path, int most) =>
        new FileInfo(path).Length <= most
            ? File.ReadAllBytes(path)
            : throw new WitnessFolderException(
                FormattableString.Invariant($"`{path}` is larger than {most} bytes")
            );
}
