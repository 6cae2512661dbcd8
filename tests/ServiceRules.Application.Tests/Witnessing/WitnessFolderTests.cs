using System.Security.Cryptography;
using System.Text;
using ServiceRules.Application.Witnessing;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Tests.Witnessing;

public sealed class WitnessFolderTests : IDisposable
{
    // A log's name need not be a file's name.
    private const string Origin = "alder-reach.example/../ledger:1*";

    private static readonly DateTimeOffset At = new(2026, 3, 2, 7, 30, 0, TimeSpan.Zero);

    private readonly string _folder = Directory.CreateTempSubdirectory("witness-tests-").FullName;
    private readonly ECDsa _secret = ECDsa.Create(ECCurve.NamedCurves.nistP256);
    private readonly List<TreeHash> _leaves =
    [
        .. Enumerable.Range(0, 40).Select(index => MerkleTree.LeafHash([(byte)index])),
    ];

    public void Dispose()
    {
        _secret.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    private EcdsaLogSigner Signer => new(Origin, _secret);

    private string Store => Path.Combine(_folder, "store");

    private SignedCheckpoint Signed(int size) =>
        SignedCheckpoint.By(Signer, new Checkpoint(Origin, size, MerkleTree.Root(_leaves[..size])));

    private GrowthProof Growth(int oldSize, int newSize) =>
        new(oldSize, MerkleTree.ConsistencyProof(_leaves[..newSize], oldSize));

    private WitnessOutcome Add(int oldSize, int newSize, DateTimeOffset at, string? name = null)
    {
        using var folder = WitnessFolder.Open(Store, name);
        return folder.Add(Signed(newSize), Growth(oldSize, newSize), Signer.Key, at);
    }

    private static string WhyUnable(WitnessOutcome outcome) =>
        Assert.IsType<WitnessOutcome.Unable>(outcome).Why;

    [Fact]
    public void Open_FolderThatOthersMayLookInto_IsRefusedUnlessItIsEmpty()
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        const UnixFileMode open =
            UnixFileMode.UserRead
            | UnixFileMode.UserWrite
            | UnixFileMode.UserExecute
            | UnixFileMode.GroupRead;
        Directory.CreateDirectory(Store);
        File.SetUnixFileMode(Store, open);
        WitnessFolder.Open(Store, null).Dispose();
        Assert.Equal(UnixFileMode.None, File.GetUnixFileMode(Store) & UnixFileMode.GroupRead);

        File.SetUnixFileMode(Store, open);
        var refused = Assert.Throws<WitnessFolderException>(() => WitnessFolder.Open(Store, null));

        Assert.Contains("chmod 700", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Add_OneAfterTheOther_TellsWhatWasBeforeAndStoresBoth()
    {
        var first = Assert.IsType<WitnessOutcome.Cosigned>(Add(0, 3, At));
        var next = Assert.IsType<WitnessOutcome.Cosigned>(Add(3, 8, At.AddMinutes(1)));

        Assert.Null(first.Earlier);
        Assert.Equal(Signed(3).Head, next.Earlier);
        using var folder = WitnessFolder.Open(Store, null);
        var stored = Assert.Single(folder.Logs());
        Assert.Equal(Origin, stored.Origin);
        Assert.Equal(2, stored.Count);
        Assert.Equal(next.Checkpoint.ToString(), stored.Latest!.ToString());
        Assert.Equal(At.AddMinutes(1), stored.CosignedAt);
        Assert.False(folder.IsNew);
    }

    [Fact]
    public void Add_ClockBeforeTheLastCosignature_IsNotCosigned()
    {
        Add(0, 3, At);

        Assert.Contains(
            "the clock says 2026-03-02 07:29:59 UTC",
            WhyUnable(Add(3, 8, At.AddSeconds(-1))),
            StringComparison.Ordinal
        );
        Assert.IsType<WitnessOutcome.Cosigned>(Add(3, 8, At));
    }

    [Fact]
    public void Add_AsManySignaturesAsANoteHolds_IsNotCosigned()
    {
        var crowded = Enumerable
            .Range(0, SignedNote.SignaturesMost - 1)
            .Aggregate(
                Signed(3),
                (note, index) =>
                    note.With(
                        WitnessKey.Of($"w{index}", new byte[WitnessKey.SecretBytes]).Cosign(note.Head, At)
                    )
            );
        using var folder = WitnessFolder.Open(Store, null);

        Assert.Contains(
            "leave no room",
            WhyUnable(folder.Add(crowded, null, Signer.Key, At)),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Add_NoteWithCosignaturesOfOthers_StoresTheLogsAndItsOwnAlone()
    {
        var other = WitnessKey.Of("other", new byte[WitnessKey.SecretBytes]);
        using var folder = WitnessFolder.Open(Store, null);

        var outcome = folder.Add(Signed(3).With(other.Cosign(Signed(3).Head, At)), null, Signer.Key, At);

        var cosigned = Assert.IsType<WitnessOutcome.Cosigned>(outcome).Checkpoint;
        Assert.Equal(3, cosigned.Note.Signatures.Length);
        Assert.True(cosigned.IsSignedBy(other.Key));
        var stored = folder.Logs().Single().Latest!;
        Assert.Equal([Origin, "witness"], stored.Note.Signatures.Select(signature => signature.KeyName));
    }

    [Fact]
    public void Add_OtherKeyForAKnownLog_IsNotTrusted()
    {
        Add(0, 3, At);
        using var other = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var otherKey = new EcdsaLogSigner(Origin, other).Key;
        using var folder = WitnessFolder.Open(Store, null);

        Assert.Contains(
            $"the key with id {Signer.Key.IdText} is trusted",
            WhyUnable(folder.Add(Signed(8), Growth(3, 8), otherKey, At)),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Add_SecondKeyPutThereByHand_IsTrusted()
    {
        Add(0, 3, At);
        using var other = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var signer = new EcdsaLogSigner(Origin, other);
        var keys = Directory.GetFiles(Store, "log.vkey", SearchOption.AllDirectories).Single();
        File.AppendAllText(keys, $"{signer.Key}\n");
        using var folder = WitnessFolder.Open(Store, null);

        Assert.IsType<WitnessOutcome.Cosigned>(
            folder.Add(SignedCheckpoint.By(signer, Signed(8).Head), Growth(3, 8), null, At)
        );
    }

    [Fact]
    public void Add_Refused_LeavesTheLogUnknown()
    {
        using var folder = WitnessFolder.Open(Store, null);

        var outcome = folder.Add(Signed(3), new GrowthProof(2, []), Signer.Key, At);

        Assert.Equal(WitnessRefusal.OtherOldSize, Assert.IsType<WitnessOutcome.Refused>(outcome).Refusal);
        Assert.Empty(folder.Logs());
    }

    [Fact]
    public async Task Open_WhileAnotherRunHoldsIt_WaitsUntilItIsClosed()
    {
        var held = WitnessFolder.Open(Store, null);
        var second = Task.Run(() => WitnessFolder.Open(Store, null).Dispose());

        await Task.Delay(TimeSpan.FromMilliseconds(200));
        Assert.False(second.IsCompleted, "two runs held one witness");
        held.Dispose();

        await second.WaitAsync(TimeSpan.FromSeconds(15));
    }

    [Fact]
    public void Open_CheckpointsWithoutTheirKey_MakesNoOther()
    {
        Add(0, 3, At);
        File.Delete(Path.Combine(Store, "witness.pem"));

        var refused = Assert.Throws<WitnessFolderException>(() => WitnessFolder.Open(Store, null));

        Assert.Contains("no private key", refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("witness.pem", "", "no private key of a witness")]
    [InlineData("witness.vkey", "no key\n", "line 1: `no key`")]
    public void Open_DamagedKey_IsRefused(string file, string content, string told)
    {
        Add(0, 3, At);
        File.WriteAllText(Path.Combine(Store, file), content);

        var refused = Assert.Throws<WitnessFolderException>(() => WitnessFolder.Open(Store, null));

        Assert.Contains(told, refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Open_KeyOfAnotherWitness_IsRefused()
    {
        Add(0, 3, At);
        File.WriteAllText(
            Path.Combine(Store, "witness.pem"),
            WitnessKey.Of("witness", new byte[WitnessKey.SecretBytes]).ToPem()
        );

        Assert.Throws<WitnessFolderException>(() => WitnessFolder.Open(Store, null));
    }

    [Theory]
    [InlineData("two words")]
    [InlineData("a+b")]
    [InlineData("")]
    public void Open_NameThatIsNone_MakesNoWitness(string name)
    {
        Assert.Throws<WitnessFolderException>(() => WitnessFolder.Open(Store, name));

        Assert.False(WitnessFolder.Exists(Store));
    }

    [Fact]
    public void Open_OtherNameThanItHas_IsRefused()
    {
        Add(0, 3, At, "first.example");

        var refused = Assert.Throws<WitnessFolderException>(() =>
            WitnessFolder.Open(Store, "second.example")
        );

        Assert.Contains("`first.example`", refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("\n8\n", "\n9\n")]
    [InlineData("witness", "witnesz")]
    [InlineData("\n\n", "\n")]
    public void Logs_StoredCheckpointChanged_IsToldAndNothingIsCosigned(string from, string to)
    {
        Add(0, 3, At);
        Add(3, 8, At);
        var stored = Directory.GetFiles(Store, "*8.checkpoint", SearchOption.AllDirectories).Single();
        var text = File.ReadAllText(stored);
        Assert.Contains(from, text, StringComparison.Ordinal);
        File.WriteAllText(stored, text.Replace(from, to, StringComparison.Ordinal), new UTF8Encoding(false));

        using var folder = WitnessFolder.Open(Store, null);

        Assert.Throws<WitnessFolderException>(() => folder.Logs());
        Assert.Throws<WitnessFolderException>(() => folder.Add(Signed(9), Growth(8, 9), null, At));
    }

    [Fact]
    public void Add_FolderThatTakesNothing_AnswersNothing()
    {
        Add(0, 3, At);
        var shelf = Path.GetDirectoryName(
            Directory.GetFiles(Store, "log.vkey", SearchOption.AllDirectories).Single()
        )!;
        Directory.CreateDirectory(Path.Combine(shelf, "0000000000000000008.checkpoint", "in the way"));

        Assert.ThrowsAny<IOException>(() => Add(3, 8, At));
    }
}
