using ServiceRules.Application.Ledger;

namespace ServiceRules.Storage.Tests;

public sealed class CheckpointFolderTests : IDisposable
{
    private const string Note = "log\n1\nroot\n\n— log sig\n";

    private readonly Drawer _drawer = new();

    public void Dispose() => _drawer.Dispose();

    private string FilePath => Path.Combine(_drawer.Outside, CheckpointFolder.FileName);

    [Fact]
    public void Beside_ALedger_IsNextToItAndNotInIt() =>
        Assert.Equal("/srv/ledger-checkpoints", CheckpointFolder.Beside("/srv/ledger/").Replace('\\', '/'));

    [Fact]
    public void All_NoFolderYet_IsEmpty() => Assert.Empty(_drawer.Shelf.All());

    [Fact]
    public void Add_Several_KeepsEachInItsOrder()
    {
        _drawer.Shelf.Add(Note);
        _drawer.Shelf.Add(Note.Replace('1', '2'));

        Assert.Equal([Note, Note.Replace('1', '2')], _drawer.Shelf.All().Select(one => one.Note));
    }

    [Fact]
    public void All_OtherFilesInTheFolder_CountToo()
    {
        _drawer.Shelf.Add(Note);
        File.WriteAllText(Path.Combine(_drawer.Outside, "from-a-mail.txt"), Note);

        Assert.Equal(2, _drawer.Shelf.All().Count());
        Assert.Contains(
            _drawer.Shelf.All(),
            one => one.Where.EndsWith("from-a-mail.txt, checkpoint 1", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void All_FilesThatAreNoNotes_AreLeftAlone()
    {
        _drawer.Shelf.Add(Note);
        File.WriteAllText(Path.Combine(_drawer.Outside, "read-me.txt"), "Do not delete.\n\nReally.\n");
        File.WriteAllBytes(Path.Combine(_drawer.Outside, "thumbnails"), [0, 1, 2, 0xFF, 0xFE]);
        File.WriteAllBytes(Path.Combine(_drawer.Outside, "empty"), []);

        Assert.Equal(Note, Assert.Single(_drawer.Shelf.All()).Note);
    }

    [Fact]
    public void Add_AfterEveryPossibleCut_KeepsTheWholeOnesAndTheNewOne()
    {
        _drawer.Shelf.Add(Note);
        _drawer.Shelf.Add(Note);
        var whole = File.ReadAllBytes(FilePath);
        for (var cut = 0; cut < whole.Length; cut++)
        {
            File.WriteAllBytes(FilePath, whole[..cut]);

            Assert.All(_drawer.Shelf.All(), one => Assert.True(one.IsRemnant || one.Note == Note));
            _drawer.Shelf.Add(Note);

            // A note that lacks no more than its blank line is whole.
            Assert.Equal(1 + ((cut + 1) / (whole.Length / 2)), _drawer.Shelf.All().Count());
        }
    }

    [Fact]
    public void Add_AfterZerosWhereBytesWereStillToCome_KeepsTheWholeOnesAndTheNewOne()
    {
        _drawer.Shelf.Add(Note);
        File.AppendAllText(FilePath, new string('\0', 20));

        _drawer.Shelf.Add(Note);

        Assert.Equal([Note, Note], _drawer.Shelf.All().Select(one => one.Note));
    }

    [Theory]
    [InlineData("log\r\n1\r\nroot\r\n\r\n— log sig\r\n\r\n")]
    [InlineData("log\r\n1\r\nroot\r\n\r\n— log sig")]
    [InlineData("\ufeffl\0o\0g\0\n\01\0\n\0")]
    [InlineData("log\n1\nroot\n\n> — log sig\n> log\n> 2\n> root\n")]
    public void Add_WhereNothingInTheFileIsANote_DestroysNothingAndSaysSo(string spoilt)
    {
        Directory.CreateDirectory(_drawer.Outside);
        File.WriteAllText(FilePath, spoilt);
        var bytes = File.ReadAllBytes(FilePath);

        var failure = Assert.Throws<LedgerStoreException>(() => _drawer.Shelf.Add(Note));

        Assert.Equal(StoreTrouble.NotShelved, failure.Trouble);
        Assert.Equal(bytes, File.ReadAllBytes(FilePath));
        Assert.NotEmpty(_drawer.Shelf.All());
    }

    [Fact]
    public void Open_OwnCheckpointsSavedWithOtherLineEnds_IsRefusedAndKeepsThem()
    {
        _drawer.File(2);
        var spoilt = File.ReadAllText(FilePath).Replace("\n", "\r\n", StringComparison.Ordinal);
        File.WriteAllText(FilePath, spoilt);

        Assert.Equal([LedgerFaultCode.Checkpoint], _drawer.CodesAtOpening());
        Assert.Equal(spoilt, File.ReadAllText(FilePath));
        Assert.Contains(_drawer.Verify().Faults, fault => fault.Code == LedgerFaultCode.Checkpoint);
    }

    [Fact]
    public void Open_FilesOfOthersThatSayNothingOfThisLog_IsARemarkForEach()
    {
        _drawer.File(1);
        var own = File.ReadAllText(FilePath);
        File.WriteAllText(
            Path.Combine(_drawer.Outside, "read-me.txt"),
            "Ask before you move this.\n— the workshop\n"
        );
        File.WriteAllText(
            Path.Combine(_drawer.Outside, "mail.txt"),
            own.Replace("\n", "\r\n", StringComparison.Ordinal)
        );
        using var other = new Drawer();
        other.File(1);
        File.Copy(
            Path.Combine(other.Outside, CheckpointFolder.FileName),
            Path.Combine(_drawer.Outside, "other-log.txt")
        );

        using var folder = _drawer.Open();
        var opened = Assert.IsType<LedgerOpening.Opened>(_drawer.Opening(folder));

        Assert.Equal(3, opened.Remarks.Length);
        Assert.All(
            ["read-me.txt", "mail.txt", "other-log.txt"],
            name => Assert.Contains(opened.Remarks, remark => remark.Contains(name, StringComparison.Ordinal))
        );
        Assert.Empty(_drawer.Verify().Faults);
    }

    [Fact]
    public void Verify_OnlyNotesOfOthersOutside_SaysThatNothingSpeaksForIt()
    {
        _drawer.File(1);
        File.WriteAllText(FilePath, "");
        File.WriteAllText(Path.Combine(_drawer.Outside, "read-me.txt"), "— the workshop\n");

        Assert.Contains(
            _drawer.Verify().Remarks,
            remark => remark.StartsWith("no checkpoint outside", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Open_CheckpointOfThisLogFromOthersThatContradicts_IsRefused()
    {
        _drawer.File(2);
        var later = File.ReadAllText(FilePath);
        File.WriteAllText(FilePath, later[..(later.Length / 2)]);
        File.WriteAllText(
            Path.Combine(_drawer.Outside, "mail.txt"),
            later.Replace("\n2\n", "\n3\n", StringComparison.Ordinal)
        );

        Assert.Equal([LedgerFaultCode.Checkpoint], _drawer.CodesAtOpening());
    }

    [Fact]
    public void Add_ToAPlaceThatIsNoFolder_SaysSoWithoutWaiting()
    {
        File.WriteAllText(_drawer.Outside, "");
        var begun = System.Diagnostics.Stopwatch.StartNew();

        Assert.Throws<LedgerStoreException>(() => _drawer.Shelf.Add(Note));

        Assert.True(begun.Elapsed < TimeSpan.FromSeconds(10));
    }

    [Fact]
    public async Task All_APipeInTheFolder_IsNotWaitedOn()
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        _drawer.Shelf.Add(Note);
        using var made = System.Diagnostics.Process.Start("mkfifo", [Path.Combine(_drawer.Outside, "pipe")]);
        await made.WaitForExitAsync();
        File.CreateSymbolicLink(Path.Combine(_drawer.Outside, "zeros"), "/dev/zero");

        var all = Task.Run(() => _drawer.Shelf.All().Count());

        Assert.Same(all, await Task.WhenAny(all, Task.Delay(TimeSpan.FromSeconds(20))));
    }

    [Fact]
    public void Open_TornCheckpointOfThisLog_IsARemarkAndTheNextFilingGoesOn()
    {
        _drawer.File(2);
        var whole = File.ReadAllText(FilePath);
        File.WriteAllText(FilePath, whole[..^10]);

        using (var folder = _drawer.Open())
        {
            var opened = Assert.IsType<LedgerOpening.Opened>(_drawer.Opening(folder));
            Assert.Contains("broken off", Assert.Single(opened.Remarks), StringComparison.Ordinal);
        }

        Assert.Equal(whole, File.ReadAllText(FilePath));
        Assert.Empty(_drawer.Verify().Faults);
    }

    [Fact]
    public void Open_TornCheckpointThatNamesMoreThanTheDatabaseHas_IsRefusedAndKept()
    {
        _drawer.File(2);
        var older = File.ReadAllBytes(_drawer.Database);
        _drawer.File(1, 3);
        File.WriteAllBytes(_drawer.Database, older);
        var torn = File.ReadAllText(FilePath)[..^10];
        File.WriteAllText(FilePath, torn);

        Assert.Equal([LedgerFaultCode.Shorter], _drawer.CodesAtOpening());
        Assert.Contains(
            _drawer.Verify().Faults,
            fault => fault.Told.Contains("names size 3, here it is 2", StringComparison.Ordinal)
        );
        Assert.Equal(torn, File.ReadAllText(FilePath));
    }

    [Theory]
    [InlineData("another-log\n1\n")]
    [InlineData("servicerules")]
    [InlineData("what else was written here")]
    public void Open_WhatIsNoBeginningOfOurOwnBehindTheLast_IsToldOrRefusedAndKept(string rest)
    {
        _drawer.File(1);
        File.AppendAllText(FilePath, rest);
        var kept = File.ReadAllText(FilePath);
        if (rest == "servicerules")
        {
            // As short as this it is the beginning of each of ours.
            Assert.Empty(_drawer.CodesAtOpening());
            return;
        }

        Assert.Equal([LedgerFaultCode.Checkpoint], _drawer.CodesAtOpening());
        Assert.Contains(_drawer.Verify().Faults, fault => fault.Code == LedgerFaultCode.Checkpoint);
        Assert.Equal(kept, File.ReadAllText(FilePath));
    }
}
