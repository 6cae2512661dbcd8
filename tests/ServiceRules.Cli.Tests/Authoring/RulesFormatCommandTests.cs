using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests.Authoring;

public sealed class RulesFormatCommandTests : IDisposable
{
    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    private string Order(string name, string text) =>
        _product.Write($"r/setting-orders/{name}.json", System.Text.Encoding.UTF8.GetBytes(text));

    private const string Good =
        """{"schools":[],"targets":[],"from":"2027-03-01","by":"lead-01","id":"S-1","format":"setting-order/1"}""";

    private const string Canonical = """
        {
          "format": "setting-order/1",
          "id": "S-1",
          "by": "lead-01",
          "from": "2027-03-01",
          "targets": [],
          "schools": []
        }

        """;

    [Fact]
    public void Format_File_IsWrittenAnewOnce()
    {
        var file = Order("S-1", Good);
        var checkedFirst = _product.Run("rules", "format", file, "--check");
        Assert.True(checkedFirst.ExitCode == 1, checkedFirst.ToString());
        Assert.Contains($"not canonical: {file}", checkedFirst.StandardOutput, StringComparison.Ordinal);
        Assert.Equal(Good, File.ReadAllText(file));

        var printed = _product.Run("rules", "format", file, "--print");
        Assert.Equal(Canonical, printed.StandardOutput);
        Assert.Equal(Good, File.ReadAllText(file));

        var outcome = _product.Run("rules", "format", _product.At("r"));
        Manners.Hold(outcome);
        Assert.Equal(0, outcome.ExitCode);
        Assert.Contains("1 file: 1 written anew", outcome.StandardOutput, StringComparison.Ordinal);
        Assert.Equal(Canonical, File.ReadAllText(file));

        Assert.Equal(0, _product.Run("rules", "format", file, "--check").ExitCode);
    }

    [Fact]
    public void Format_FileThatDoesNotRead_StaysAndTellsEveryProblemWhileOthersAreWritten()
    {
        var bad = Order(
            "S-2",
            Good.Replace("lead-01", "?", StringComparison.Ordinal)
                .Replace("2027-03-01", "soon", StringComparison.Ordinal)
        );
        var before = File.ReadAllText(bad);
        var good = Order("S-1", Good);
        var outcome = _product.Run("rules", "format", _product.At("r"));
        Manners.Hold(outcome);
        Assert.Equal(2, outcome.ExitCode);
        Assert.Equal(2, outcome.Complaints.Count);
        Assert.All(outcome.Complaints, line => Assert.Contains("accepted", line, StringComparison.Ordinal));
        Assert.Equal(before, File.ReadAllText(bad));
        Assert.Equal(Canonical, File.ReadAllText(good));
    }

    [Fact]
    public void Format_FileOfALaterFormat_StaysAndTellsWhatToDo()
    {
        var later = Order(
            "S-1",
            Good.Replace("setting-order/1", "setting-order/2", StringComparison.Ordinal)
        );
        var outcome = _product.Run("rules", "format", later);
        Manners.Hold(outcome);
        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains("later version of the program", outcome.StandardError, StringComparison.Ordinal);
    }

    [Fact]
    public void Format_FixtureOrStranger_IsRefusedByItsName()
    {
        var outcome = _product.Run("rules", "format", _product.Write("x.json", "{}"u8.ToArray()));
        Manners.HoldForRefusal(outcome);
        Assert.Contains("setting-orders/*.json", outcome.StandardError, StringComparison.Ordinal);
    }

    [Fact]
    public void Format_EmptyFolder_IsRefused()
    {
        Directory.CreateDirectory(_product.At("empty"));
        Manners.HoldForRefusal(_product.Run("rules", "format", _product.At("empty")));
    }
}
