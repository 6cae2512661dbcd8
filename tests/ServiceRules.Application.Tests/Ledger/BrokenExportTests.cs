using ServiceRules.Application.Ledger;

namespace ServiceRules.Application.Tests.Ledger;

public sealed class BrokenExportTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("servicerules-export-");
    private readonly Desk _desk = new();

    public void Dispose()
    {
        _desk.Dispose();
        _folder.Delete(recursive: true);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void To_ThatFailsAfterTheContents_LeavesNothing(bool isThere)
    {
        _desk.File(Desk.Judged());
        var folder = Path.Combine(_folder.FullName, "out");
        if (isThere)
        {
            Directory.CreateDirectory(folder);
        }

        Assert.Throws<IOException>(() =>
            new ExportLedger(new UnreadableCheckpoints(_desk.Store), _desk.Open().Key).To(folder)
        );

        Assert.Equal(isThere, Directory.Exists(folder));
        Assert.Empty(_folder.GetFiles("*", SearchOption.AllDirectories));
    }
}
