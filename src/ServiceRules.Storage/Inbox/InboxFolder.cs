using System.Diagnostics.CodeAnalysis;
using System.Text;
using ServiceRules.Application.Filed;
using ServiceRules.Evidence;

namespace ServiceRules.Storage.Inbox;

/// <summary>
/// A folder that files are dropped into. A file is first taken: renamed into a folder that nobody else enters, so that what
/// is read there is a file and stays it. Then it is put away with its answer, the answer first: whatever ends the program in
/// between, the file is taken up again.
/// </summary>
public sealed class InboxFolder : IDisposable
{
    public const string MappingEnding = ".mapping.json";
    public const string AnswerEnding = ".answer.json";
    public const string FiledName = "filed";
    public const string RefusedName = "refused";
    public const string TakenName = ".taken";

    private const string LockName = ".lock";

    /// <summary>Files looked at in one round: the others wait for the next.</summary>
    private const int FilesMost = 1_000;

    /// <summary>File systems take names of 255 bytes, and those of answers and of files dropped again are longer.</summary>
    private const int NameBytesMost = 200;

    private const int DigestDigits = 16;

    private static readonly string[] Drafts = [".tmp", ".part", ".partial", "~"];

    private static readonly EnumerationOptions All = new()
    {
        AttributesToSkip = 0,
        IgnoreInaccessible = false,
    };

    private readonly string folder;
    private readonly FileStream alone;

    private InboxFolder(string folder, FileStream alone) => (this.folder, this.alone) = (folder, alone);

    private string Taken => Path.Combine(folder, TakenName);

    /// <summary>Opens the folder, made where there is none; one program at a time may have it.</summary>
    /// <param name="path">Where it is.</param>
    /// <exception cref="IOException">It cannot be used; the message says why.</exception>
    [SuppressMessage("Reliability", "CA2000", Justification = "The file passes to the object given back.")]
    public static InboxFolder Open(string path)
    {
        var folder = Path.TrimEndingDirectorySeparator(Path.GetFullPath(path));
        PrivateFolder.Begin(folder);
        foreach (var name in new[] { FiledName, RefusedName })
        {
            Directory.CreateDirectory(Path.Combine(folder, name));
        }

        var taken = Path.Combine(folder, TakenName);
        if (FaultOf(folder) is { } fault)
        {
            throw new IOException(fault);
        }

        PrivateFolder.Begin(taken);
        if (PrivateFolder.Fault(taken) is { } open)
        {
            throw new IOException(open);
        }

        try
        {
            return new(
                folder,
                new FileStream(
                    Path.Combine(taken, LockName),
                    FileMode.OpenOrCreate,
                    FileAccess.ReadWrite,
                    FileShare.None
                )
            );
        }
        catch (IOException failure)
        {
            throw new IOException(
                $"another service has `{folder}`, or it cannot be written to: {failure.Message}",
                failure
            );
        }
    }

    /// <summary>Why the folder cannot be worked in now, or null.</summary>
    public string? Fault() => FaultOf(folder);

    /// <summary>The files that are there: those taken before, then those dropped, by name.</summary>
    public IReadOnlyList<DroppedFile> Look() =>
        [.. In(Taken, isTaken: true), .. In(folder, isTaken: false).Take(FilesMost)];

    /// <summary>Takes a file that was dropped; null where it cannot be taken now.</summary>
    /// <param name="file">As it was seen.</param>
    public DroppedFile? Take(DroppedFile file)
    {
        ArgumentNullException.ThrowIfNull(file);
        if (file.IsTaken)
        {
            return file;
        }

        var place = Path.Combine(Taken, file.Name);
        if (Exists(place))
        {
            // One of this name was taken before, and is not put away yet.
            return null;
        }

        File.Move(Path.Combine(folder, file.Name), place, overwrite: true);
        DurableFile.SyncFolder(Taken);
        DurableFile.SyncFolder(folder);
        return Seen(place, isTaken: true);
    }

    /// <summary>Reads a file that was taken.</summary>
    /// <param name="file">As it was seen.</param>
    /// <param name="most">No more bytes than these.</param>
    public DroppedContent Read(DroppedFile file, int most)
    {
        ArgumentNullException.ThrowIfNull(file);
        var path = Path.Combine(Taken, file.Name);
        try
        {
            if (new FileInfo(path).LinkTarget is not null)
            {
                return new DroppedContent.Unfit(
                    "this is a link, and links are not followed",
                    "the file itself"
                );
            }

            if (file.Length == 0 || !RegularFile.Is(path))
            {
                return new DroppedContent.Unfit(
                    "this is empty, or no file",
                    "a record (*.json), or a table (*.csv, *.xlsx) with its mapping"
                );
            }

            if (file.Length > most)
            {
                return new DroppedContent.Unfit(
                    $"the file has {file.Length} bytes",
                    $"at most {most / 1024 / 1024} MiB"
                );
            }

            var bytes = new byte[file.Length];
            using (var stream = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite))
            {
                if (stream.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false) < bytes.Length)
                {
                    return new DroppedContent.Unsettled();
                }
            }

            return Seen(path, isTaken: true) == file
                ? new DroppedContent.Bytes(bytes)
                : new DroppedContent.Unsettled();
        }
        catch (Exception failure) when (failure is UnauthorizedAccessException or IOException)
        {
            return new DroppedContent.Unfit(
                "the service cannot read this file",
                "one that the account of the service may read"
            );
        }
    }

    /// <summary>Whether a mapping of this name was taken with its table, or lies beside it.</summary>
    public DroppedFile? Mapping(string name) =>
        Seen(Path.Combine(Taken, name), isTaken: true) ?? Seen(Path.Combine(folder, name), isTaken: false);

    /// <summary>Puts a taken file away, under its own name or one that is free, with its answer beside it.</summary>
    /// <param name="file">The file.</param>
    /// <param name="isFiled">Whether all of it stands; else it is set aside.</param>
    /// <param name="answer">The answer.</param>
    /// <param name="mapping">The mapping that was taken with it; null: none.</param>
    public void PutAway(DroppedFile file, bool isFiled, ReadOnlySpan<byte> answer, DroppedFile? mapping)
    {
        ArgumentNullException.ThrowIfNull(file);
        var place = Path.Combine(folder, isFiled ? FiledName : RefusedName);
        var name = FreeName(place, file.Name);
        DurableFile.Write(Path.Combine(place, name + AnswerEnding), answer);
        if (mapping is { IsTaken: true })
        {
            File.Move(
                Path.Combine(Taken, mapping.Name),
                Path.Combine(place, name + MappingEnding),
                overwrite: true
            );
        }

        File.Move(Path.Combine(Taken, file.Name), Path.Combine(place, name), overwrite: true);
        DurableFile.SyncFolder(place);
        DurableFile.SyncFolder(Taken);
    }

    public void Dispose() => alone.Dispose();

    private static string? FaultOf(string folder)
    {
        foreach (var name in new[] { FiledName, RefusedName, TakenName })
        {
            var place = new DirectoryInfo(Path.Combine(folder, name));
            if (place.LinkTarget is not null || File.Exists(place.FullName))
            {
                return $"`{place.FullName}` is a link or a file; accepted: a folder";
            }

            if (!place.Exists && name != TakenName)
            {
                return $"`{place.FullName}` is not there; accepted: a folder";
            }
        }

        return null;
    }

    private static IEnumerable<DroppedFile> In(string place, bool isTaken) =>
        Directory
            .EnumerateFiles(place, "*", All)
            .Where(path => isTaken ? Path.GetFileName(path) != LockName : !IsDraft(Path.GetFileName(path)))
            .Order(StringComparer.Ordinal)
            .Select(path => Seen(path, isTaken))
            .OfType<DroppedFile>();

    private static bool IsDraft(string name) =>
        name.StartsWith('.')
        || Drafts.Any(ending => name.EndsWith(ending, StringComparison.OrdinalIgnoreCase));

    private static DroppedFile? Seen(string path, bool isTaken)
    {
        try
        {
            var file = new FileInfo(path);
            if (file.LinkTarget is not null)
            {
                return new(file.Name, isTaken, 0, default);
            }

            return file.Exists ? new(file.Name, isTaken, file.Length, file.LastWriteTimeUtc) : null;
        }
        catch (Exception gone) when (gone is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    private static bool Exists(string path)
    {
        var there = new FileInfo(path);
        return there.LinkTarget is not null || there.Exists || Directory.Exists(path);
    }

    private static string FreeName(string place, string name)
    {
        if (Encoding.UTF8.GetByteCount(name) > NameBytesMost)
        {
            var digest = ContentHash.Of(Encoding.UTF8.GetBytes(name)).ToString()["sha256:".Length..];
            name = $"long-name-{digest[..DigestDigits]}";
        }

        var stem = Path.GetFileNameWithoutExtension(name);
        var ending = Path.GetExtension(name);
        var free = name;
        for (var count = 2; Exists(Path.Combine(place, free)); count++)
        {
            free = $"{stem}-{count}{ending}";
        }

        return free;
    }
}
