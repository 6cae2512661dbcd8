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

            Assert.All(_drawer.Shelf.All(), one => Assert.Equal(Note, one.Note));
            _drawer.Shelf.Add(Note);

            Assert.Equal(1 + (cut / (whole.Length / 2)), _drawer.Shelf.All().Count());
        }
    }
}
