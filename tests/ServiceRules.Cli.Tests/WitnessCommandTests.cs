using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using ServiceRules.Evidence.Log;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

public sealed class WitnessCommandTests : IDisposable
{
    private const string Origin = "alder-reach.example/ledger";

    private readonly Product _product = new();
    private readonly ECDsa _secret = ECDsa.Create(ECCurve.NamedCurves.nistP256);

    public WitnessCommandTests() =>
        _product.Write(
            "log-key.pem",
            Encoding.ASCII.GetBytes(_secret.ExportSubjectPublicKeyInfoPem() + "\n")
        );

    public void Dispose()
    {
        _product.Dispose();
        _secret.Dispose();
    }

    private EcdsaLogSigner Signer => new EcdsaLogSigner(Origin, _secret);

    private string Store => _product.At("store");

    /// <summary>Leaves of the one true history, or of one that was changed from the third entry on.</summary>
    private static List<TreeHash> Leaves(int size, bool isChanged = false) =>
        [
            .. Enumerable
                .Range(0, size)
                .Select(index => MerkleTree.LeafHash([(byte)index, (byte)(isChanged && index > 1 ? 1 : 0)])),
        ];

    private string Checkpoint(int size, bool isChanged = false)
    {
        var head = new Checkpoint(Origin, size, MerkleTree.Root(Leaves(size, isChanged)));
        return Write($"checkpoint-{size}-{isChanged}", SignedCheckpoint.By(Signer, head).ToString());
    }

    private string Growth(int oldSize, int newSize, bool isChanged = false) =>
        Write(
            $"proof-{oldSize}-{newSize}-{isChanged}",
            new GrowthProof(
                oldSize,
                MerkleTree.ConsistencyProof(Leaves(newSize, isChanged), oldSize)
            ).ToString()
        );

    private string Write(string name, string text) => _product.Write(name, Encoding.UTF8.GetBytes(text));

    private ProductOutcome Add(string checkpoint, params string[] more) =>
        _product.Run(["witness", "add", checkpoint, "--store", Store, .. more]);

    private ProductOutcome AddFirst(int size) =>
        Add(Checkpoint(size), "--log-key", _product.At("log-key.pem"), "--name", "witness.example/w1");

    private NoteKey WitnessKey()
    {
        Assert.True(
            NoteKey.TryParse(
                File.ReadAllText(Path.Combine(Store, "witness.vkey")).TrimEnd('\n'),
                out var key,
                out var fault
            ),
            fault?.ToString()
        );
        return key!;
    }

    private static SignedCheckpoint Read(string note)
    {
        Assert.True(
            SignedCheckpoint.TryParse(Encoding.UTF8.GetBytes(note), out var read, out var faults),
            string.Join('\n', faults)
        );
        return read!;
    }

    private static void AssertRefused(ProductOutcome outcome, int code, string told)
    {
        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 1, outcome.ToString());
        Assert.Empty(outcome.StandardOutput);
        Assert.StartsWith(
            $"refused ({code.ToString(CultureInfo.InvariantCulture)}): ",
            outcome.Complaints[^1],
            StringComparison.Ordinal
        );
        Assert.Contains(told, outcome.StandardError, StringComparison.Ordinal);
    }

    [Fact]
    public void Add_FirstCheckpoint_MakesAPrivateKeyAndCosigns()
    {
        var outcome = AddFirst(3);

        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        var note = Read(outcome.StandardOutput);
        var key = WitnessKey();
        Assert.True(note.IsSignedBy(key));
        Assert.True(note.IsSignedBy(Signer.Key));
        Assert.Contains(key.ToString(), outcome.StandardError, StringComparison.Ordinal);
        Assert.Equal("witness.example/w1", key.Name);
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(
                UnixFileMode.UserRead | UnixFileMode.UserWrite,
                File.GetUnixFileMode(Path.Combine(Store, "witness.pem"))
            );
        }
    }

    [Fact]
    public void Add_LogThatGrew_IsCosignedByTheSameKeyAndToldByShow()
    {
        AddFirst(3);

        var outcome = Add(Checkpoint(7), "--proof", Growth(3, 7), "--out", _product.At("cosigned"));

        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Empty(outcome.StandardOutput);
        var note = Read(File.ReadAllText(_product.At("cosigned")));
        Assert.Equal(7, note.Head.Size);
        Assert.True(note.IsSignedBy(WitnessKey()));
        var shown = _product.Run("witness", "show", "--store", Store);
        Manners.Hold(shown);
        Assert.StartsWith($"witness {WitnessKey()}\n", shown.StandardOutput, StringComparison.Ordinal);
        Assert.Contains($"log       {Origin}\n", shown.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("size      7\n", shown.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("stored    2 checkpoints\n", shown.StandardOutput, StringComparison.Ordinal);
        Assert.Equal(
            note.ToString(),
            _product.Run("witness", "show", "--store", Store, "--log", Origin).StandardOutput
        );
    }

    [Fact]
    public void Add_SameCheckpointAgain_IsCosignedAgain()
    {
        AddFirst(3);

        var outcome = Add(Checkpoint(3));

        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.True(Read(outcome.StandardOutput).IsSignedBy(WitnessKey()));
    }

    [Fact]
    public void Add_CosignedNoteBroughtBack_BearsOneCosignature()
    {
        var first = Write("cosigned", AddFirst(3).StandardOutput);

        var again = Read(Add(first).StandardOutput);

        Assert.Equal(2, again.Note.Signatures.Length);
        Assert.True(again.IsSignedBy(WitnessKey()));
    }

    [Fact]
    public void Add_UnknownLogWithoutItsKey_IsRefusedAndLeavesNoWitness()
    {
        AssertRefused(Add(Checkpoint(3)), 404, $"the log `{Origin}` is not known here");
        Assert.False(Directory.Exists(Store));
    }

    [Fact]
    public void Add_FirstCheckpointThatCannotBeCosigned_LeavesNoWitness()
    {
        using var other = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var key = Write("other.pem", other.ExportSubjectPublicKeyInfoPem());

        AssertRefused(Add(Checkpoint(3), "--log-key", key), 403, "no signature by the key trusted");
        AssertRefused(
            Add(Checkpoint(7), "--log-key", _product.At("log-key.pem"), "--proof", Growth(3, 7)),
            409,
            "accepted: the proof from 0"
        );
        Manners.HoldForRefusal(
            Add(Checkpoint(3), "--log-key", _product.At("log-key.pem"), "--name", "no name")
        );
        Assert.False(Directory.Exists(Store));
    }

    [Fact]
    public void Add_PlaceOfSomethingElse_IsLeftAlone()
    {
        var record = _product.Write("record.json", Fixtures.Bytes("height-check"));

        Manners.HoldForRefusal(Add(Checkpoint(3), "--log-key", _product.At("log-key.pem"), "--out", record));

        Assert.Equal(Fixtures.Bytes("height-check"), File.ReadAllBytes(record));
        Assert.False(Directory.Exists(Store));
    }

    /// <summary>U+009B commands a terminal as escape and bracket do; the answer itself is not for a terminal.</summary>
    [Fact]
    public void Add_LogWhoseNameCommandsATerminal_IsToldInLettersAlone()
    {
        const string origin = "ledger.example/\u009b2J\u202eevil";
        var signer = new EcdsaLogSigner(origin, _secret);
        var head = new Checkpoint(origin, 3, MerkleTree.Root(Leaves(3)));

        var outcome = Add(
            Write("hostile", SignedCheckpoint.By(signer, head).ToString()),
            "--log-key",
            _product.At("log-key.pem")
        );

        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Contains(origin, outcome.StandardOutput, StringComparison.Ordinal);
        Assert.Contains(
            @"cosigned ledger.example/\u009b2J\u202eevil at size 3",
            outcome.StandardError,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain(outcome.StandardError, symbol => symbol is '\u009b' or '\u202e');
    }

    [Fact]
    public void Add_SecondHistoryOfOneSize_IsRefusedAndNothingIsStored()
    {
        AddFirst(3);

        AssertRefused(Add(Checkpoint(3, isChanged: true)), 422, "two histories");
        AssertRefused(
            Add(Checkpoint(7, isChanged: true), "--proof", Growth(3, 7, isChanged: true)),
            422,
            "the proof does not show"
        );

        Assert.Single(Directory.GetFiles(Store, "*.checkpoint", SearchOption.AllDirectories));
    }

    [Fact]
    public void Add_GoingBack_IsRefused()
    {
        AddFirst(7);

        AssertRefused(Add(Checkpoint(3)), 409, "accepted: 7 or more");
        AssertRefused(Add(Checkpoint(3), "--proof", Write("old-7", "old 7\n")), 400, "accepted: 7");
    }

    [Fact]
    public void Add_WithoutTheProof_IsToldWhichOneIsNeeded()
    {
        AddFirst(3);

        AssertRefused(Add(Checkpoint(7)), 409, "accepted: the proof from 3");
    }

    [Fact]
    public void Add_SignedByAnotherKey_IsRefused()
    {
        AddFirst(3);
        using var other = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var forged = SignedCheckpoint.By(
            new EcdsaLogSigner(Origin, other),
            new Checkpoint(Origin, 7, MerkleTree.Root(Leaves(7)))
        );

        AssertRefused(
            Add(Write("forged", forged.ToString()), "--proof", Growth(3, 7)),
            403,
            "no signature by the key trusted"
        );
        var key = Write("other.pem", other.ExportSubjectPublicKeyInfoPem());
        Manners.HoldForRefusal(Add(Write("forged", forged.ToString()), "--log-key", key));
    }

    [Fact]
    public async Task Add_TwoHistoriesAtOnce_CosignsOne()
    {
        AddFirst(3);
        string[] honest = [Checkpoint(7), Growth(3, 7)];
        string[] shorter = [Checkpoint(5), Growth(3, 5)];

        var outcomes = await Task.WhenAll(
            new[] { honest, shorter, honest, shorter }.Select(each =>
                Task.Run(() => Add(each[0], "--proof", each[1]))
            )
        );

        Assert.All(outcomes, outcome => Assert.True(outcome.ExitCode is 0 or 1, outcome.ToString()));
        // Whoever came first, the other size is refused; only 5 and then 7 could both go, but for that the proof is from 3.
        var sizes = outcomes
            .Where(outcome => outcome.ExitCode == 0)
            .Select(outcome => Read(outcome.StandardOutput).Head.Size)
            .Distinct();
        Assert.Single(sizes);
    }

    [Fact]
    public void Add_StoredCheckpointDamaged_GoesNoFurther()
    {
        AddFirst(3);
        var stored = Directory.GetFiles(Store, "*.checkpoint", SearchOption.AllDirectories).Single();
        File.WriteAllText(
            stored,
            File.ReadAllText(stored).Replace("\n3\n", "\n2\n", StringComparison.Ordinal)
        );

        Manners.HoldForRefusal(Add(Checkpoint(7), "--proof", Growth(3, 7)));
        Manners.HoldForRefusal(_product.Run("witness", "show", "--store", Store));
    }

    [SkippableFact]
    public void Add_PrivateKeyThatOthersCanRead_IsRefused()
    {
        Skip.If(OperatingSystem.IsWindows(), "file modes are a Unix matter");
        AddFirst(3);
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(
                Path.Combine(Store, "witness.pem"),
                UnixFileMode.UserRead | UnixFileMode.GroupRead
            );
        }

        var outcome = Add(Checkpoint(3));

        Manners.HoldForRefusal(outcome);
        Assert.Contains("chmod 600", outcome.StandardError, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "line 1: nothing")]
    [InlineData("no checkpoint\n", "a blank line")]
    [InlineData("log\n03\nAAAA\n\n— log AAAAAAA=\n", "line 2: `03`")]
    public void Add_FileThatIsNoCheckpoint_IsRefusedWithItsLine(string content, string told)
    {
        var outcome = Add(Write("bad", content));

        Manners.HoldForRefusal(outcome);
        Assert.Contains(told, outcome.StandardError, StringComparison.Ordinal);
        Assert.False(Directory.Exists(Store));
    }

    /// <summary>The page tells how to check with other tools; its commands are run as they stand there.</summary>
    [SkippableFact]
    public void Documentation_CommandsForAStranger_VerifyLogAndWitness()
    {
        Tool.Require("openssl");
        var shell = Tool.Require("sh");
        Write("checkpoint", AddFirst(3).StandardOutput);
        Write("witness.pem", _product.Run("witness", "show", "--store", Store, "--pem").StandardOutput);
        var page = File.ReadAllLines(ReferenceFiles.InRepository("docs", "ledger.md"));
        var commands = page.SkipWhile(line => line != "### Checking a signature without this product")
            .TakeWhile(line => line != "### Recomputing the root without this product")
            .Where(line => line.StartsWith("    ", StringComparison.Ordinal));

        var said = shell.Run("-e", "-c", $"cd '{_product.Folder}'\n{string.Join('\n', commands)}");

        Assert.True(said.ExitCode == 0, said.ToString());
        Assert.Contains("Verified OK", said.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("Signature Verified Successfully", said.StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void Add_BadProofOrKey_IsRefusedBeforeAWitnessIsMade()
    {
        Manners.HoldForRefusal(Add(Checkpoint(3), "--proof", Write("bad", "old x\n")));
        Manners.HoldForRefusal(Add(Checkpoint(3), "--log-key", Write("bad", "no key")));
        Manners.HoldForRefusal(Add(_product.At("nothing")));
        Assert.False(Directory.Exists(Store));
        Manners.HoldForRefusal(_product.Run("witness", "show", "--store", Store));
    }
}
