using System.Security.Cryptography;
using System.Text;
using ServiceRules.Application.Filed;
using ServiceRules.Domain.Timeline;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Witnessing;

/// <summary>
/// The folder of a witness: its key, and every checkpoint it ever cosigned. One run at a time: from reading what is
/// known to storing what is new, a lock is held, so that two runs at once cannot lead it back or aside.
/// </summary>
public sealed class WitnessFolder : IDisposable
{
    private const string SecretFile = "witness.pem";
    private const string KeyFile = "witness.vkey";
    private const string LockFile = "lock";
    private const int KeyBytesMost = 64 * 1024;

    private static readonly TimeSpan LockPatience = TimeSpan.FromSeconds(20);
    private static readonly TimeSpan BetweenTries = TimeSpan.FromMilliseconds(25);

    private readonly FileStream _lock;
    private readonly WitnessKey _key;
    private readonly CheckpointShelves _shelves;

    private WitnessFolder(string folder, FileStream held, WitnessKey key, bool isNew)
    {
        (_lock, _key, IsNew) = (held, key, isNew);
        _shelves = new CheckpointShelves(folder, key.Key);
    }

    /// <summary>Whether the witness's key was made just now.</summary>
    public bool IsNew { get; }

    /// <summary>What the cosignatures are checked with.</summary>
    public NoteKey Key => _key.Key;

    /// <summary>Whether there is a witness in this folder.</summary>
    /// <param name="folder">The folder.</param>
    public static bool Exists(string folder) => File.Exists(Path.Combine(folder, SecretFile));

    /// <summary>
    /// What a witness that remembers nothing yet would say to its first checkpoint, if that is no: asked before one is made,
    /// so that a refusal leaves none behind. Null when it would cosign.
    /// </summary>
    /// <param name="checkpoint">The checkpoint.</param>
    /// <param name="growth">The proof that came with it, or null.</param>
    /// <param name="given">The log's key, or null.</param>
    /// <param name="at">The clock.</param>
    public static WitnessOutcome? RefusalOfFirst(
        SignedCheckpoint checkpoint,
        GrowthProof? growth,
        NoteKey? given,
        DateTimeOffset at
    )
    {
        var head = checkpoint.Head;
        var nothing = new StoredLog(head.Origin, [], null, null, 0);
        return WhyUnable(checkpoint, nothing, given, at) is { } why ? new WitnessOutcome.Unable(why)
            : Answer(Trusting(nothing, given), growth, checkpoint) is WitnessAnswer.Refused refused
                ? new WitnessOutcome.Refused(refused.Refusal, refused.Told)
            : null;
    }

    /// <summary>Opens the folder, or makes a witness in it, and keeps every other run out until it is closed.</summary>
    /// <param name="folder">The folder; made where there is none.</param>
    /// <param name="name">Name of the witness: of a new one, or the one that an existing one must have; null for any.</param>
    /// <exception cref="WitnessFolderException">It cannot be used as it is.</exception>
    public static WitnessFolder Open(string folder, string? name)
    {
        FileStream? held = null;
        if (name is not null && !NoteKey.IsName(name))
        {
            throw new WitnessFolderException(
                $"`{name}` cannot name a witness; accepted: a name without spaces and `+`, such as `witness.example/w1`"
            );
        }

        try
        {
            if (PrivateFolder.Make(folder) is { } open)
            {
                throw new WitnessFolderException(open);
            }

            held = Lock(Path.Combine(folder, LockFile));
            var isNew = !Exists(folder);
            var key = isNew ? MakeKey(folder, name ?? "witness") : ReadKey(folder);
            if (name is not null && name != key.Key.Name)
            {
                throw new WitnessFolderException(
                    $"the witness in `{folder}` is named `{key.Key.Name}`; accepted: this name, or another folder"
                );
            }

            var opened = new WitnessFolder(folder, held, key, isNew);
            held = null;
            return opened;
        }
        catch (Exception failure)
            when (!DiskFull.Is(failure) && failure is IOException or UnauthorizedAccessException)
        {
            throw new WitnessFolderException($"the folder `{folder}` of the witness: {failure.Message}");
        }
        finally
        {
            held?.Dispose();
        }
    }

    /// <summary>Every log that is known here, by name.</summary>
    /// <exception cref="WitnessFolderException">What is stored of one of them is damaged.</exception>
    public IReadOnlyList<StoredLog> Logs() => _shelves.All();

    /// <summary>Decides on a checkpoint, and cosigns it or refuses; the cosignature is given only once it is stored.</summary>
    /// <param name="checkpoint">The checkpoint.</param>
    /// <param name="growth">The proof from the size cosigned last; null where the log has none to give.</param>
    /// <param name="given">A key to trust for a log that is not known yet; for a known one, the key it must have.</param>
    /// <param name="at">The clock.</param>
    /// <exception cref="WitnessFolderException">What is stored of this log is damaged.</exception>
    public WitnessOutcome Add(
        SignedCheckpoint checkpoint,
        GrowthProof? growth,
        NoteKey? given,
        DateTimeOffset at
    )
    {
        var head = checkpoint.Head;
        var stored = _shelves.Read(head.Origin);
        if (WhyUnable(checkpoint, stored, given, at) is { } why)
        {
            return new WitnessOutcome.Unable(why);
        }

        var known = Trusting(stored, given);
        switch (Answer(known, growth, checkpoint))
        {
            case WitnessAnswer.Refused refused:
                return new WitnessOutcome.Refused(refused.Refusal, refused.Told);
            case WitnessAnswer.Accepted:
                var cosignature = _key.Cosign(head, at);
                _shelves.Store(known, checkpoint.Keeping(known.Keys).With(cosignature));
                return new WitnessOutcome.Cosigned(
                    checkpoint.Without(Key).With(cosignature),
                    stored.Latest?.Head
                );
            default:
                throw new InvalidOperationException("an unknown answer of a witness");
        }
    }

    /// <summary>Lets the next run in.</summary>
    public void Dispose() => _lock.Dispose();

    private static WitnessedLog Trusting(StoredLog stored, NoteKey? given) =>
        stored.Known with
        {
            Keys = stored.Keys.IsEmpty && given is not null ? [given] : stored.Keys,
        };

    private static WitnessAnswer Answer(
        WitnessedLog known,
        GrowthProof? growth,
        SignedCheckpoint checkpoint
    ) => Witness.Consider(known, growth ?? WithoutProof(known, checkpoint.Head), checkpoint);

    // Brought again, or brought first: in both cases there is nothing to prove.
    private static GrowthProof WithoutProof(WitnessedLog known, Checkpoint head) =>
        known.LatestSize == head.Size ? new GrowthProof(head.Size, []) : GrowthProof.FromNothing;

    private static string? WhyUnable(
        SignedCheckpoint checkpoint,
        StoredLog stored,
        NoteKey? given,
        DateTimeOffset at
    )
    {
        var origin = checkpoint.Head.Origin;
        if (given is not null && given.Name != origin)
        {
            return $"the key given is named `{given.Name}`; accepted: a key of `{origin}`, the log of the checkpoint";
        }

        if (given is not null && !stored.Keys.IsEmpty && !stored.Keys.Contains(given))
        {
            return $"for `{origin}` the key with id {stored.Keys[0].IdText} is trusted, not the one given "
                + $"({given.IdText}); accepted: the trusted key, or none";
        }

        if (checkpoint.Note.Signatures.Length >= SignedNote.SignaturesMost)
        {
            return FormattableString.Invariant(
                $"{checkpoint.Note.Signatures.Length} signatures leave no room for one more; accepted: fewer than {SignedNote.SignaturesMost}"
            );
        }

        return stored.CosignedAt is { } last && at.ToUnixTimeSeconds() < last.ToUnixTimeSeconds()
            ? $"the clock says {UtcTime.Print(at)}, before the last cosignature; accepted: {UtcTime.Print(last)} or later"
            : null;
    }

    private static FileStream Lock(string path)
    {
        var waited = TimeSpan.Zero;
        while (true)
        {
            try
            {
                return new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
            }
            catch (IOException) when (File.Exists(path) && waited < LockPatience)
            {
                Thread.Sleep(BetweenTries);
                waited += BetweenTries;
            }
        }
    }

    private static WitnessKey MakeKey(string folder, string name)
    {
        if (Directory.Exists(Path.Combine(folder, CheckpointShelves.FolderName)))
        {
            throw new WitnessFolderException(
                $"`{folder}` holds checkpoints but no private key; accepted: `{SecretFile}` put back, or another folder"
            );
        }

        var key = WitnessKey.Of(name, RandomNumberGenerator.GetBytes(WitnessKey.SecretBytes));
        DurableFile.Write(Path.Combine(folder, KeyFile), Encoding.UTF8.GetBytes($"{key.Key}\n"));
        // The private key last: without it there is no witness yet, and the next run begins anew.
        DurableFile.Write(
            Path.Combine(folder, SecretFile),
            Encoding.ASCII.GetBytes(key.ToPem()),
            DurableFile.Private
        );
        return key;
    }

    private static WitnessKey ReadKey(string folder)
    {
        var path = Path.Combine(folder, SecretFile);
        if (PrivateFile.Fault(path) is { } open)
        {
            throw new WitnessFolderException(open);
        }

        var shown = ReadLine(Path.Combine(folder, KeyFile));
        if (!NoteKey.TryParse(shown, out var known, out var fault))
        {
            throw new WitnessFolderException($"`{Path.Combine(folder, KeyFile)}`: {fault}");
        }

        if (!WitnessKey.TryFromPem(known.Name, ReadText(path), out var key, out fault))
        {
            throw new WitnessFolderException($"`{path}`: {fault}");
        }

        return key.Key == known
            ? key
            : throw new WitnessFolderException(
                $"`{path}` is not the private key of `{known}`; accepted: the two files of one witness"
            );
    }

    private static string ReadLine(string path) => ReadText(path).TrimEnd('\n');

    private static string ReadText(string path) =>
        new FileInfo(path).Length <= KeyBytesMost
            ? File.ReadAllText(path)
            : throw new WitnessFolderException(
                FormattableString.Invariant($"`{path}` is larger than {KeyBytesMost} bytes")
            );
}
