using System.Text;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Registers;
using ServiceRules.Formats.Sheets;
using ServiceRules.TestKit;

namespace ServiceRules.Formats.Tests.Documents;

/// <summary>Speeds of a setting order and rates of a limit sheet: what is read, and what is refused where.</summary>
public sealed class MowingDocumentTests
{
    private const string Order = """
        {
          "format": "setting-order/1", "id": "S-1", "by": "lead-01", "from": "2026-03-01", "targets": [], "schools": [],
          "mowing": [
            { "area": "golf-greens", "groundSpeed": "4 km/h", "reelSpeed": "2200 rev/min" },
            { "area": "golf-greens", "sheet": "reel-a", "groundSpeed": "70 m/min", "reelSpeed": "1800 rev/min" }
          ]
        }
        """;

    private static readonly string Sheet = Encoding.UTF8.GetString(
        File.ReadAllBytes(ReferenceFiles.InRepository("rules", "sheets", "reel-125-9-510.sheet.json"))
    );

    [Fact]
    public void Read_SpeedsOfAnOrder_AreKeptAsWritten()
    {
        Assert.True(
            SettingOrderFormat.Current.Read(Encoding.UTF8.GetBytes(Order)).TryGet(out var order, out _)
        );

        Assert.Equal(["4 km/h", "70 m/min"], order.Mowing.Select(mowing => mowing.GroundSpeed.ToString()));
        Assert.Equal([null, "reel-a"], order.Mowing.Select(mowing => mowing.Sheet));
    }

    [Theory]
    [InlineData("\"4 km/h\"", "\"4 kmh\"", "text.pattern", "/mowing/0/groundSpeed")]
    [InlineData("\"1800 rev/min\"", "\"18000 rev/min\"", "value.unreadable", "/mowing/1/reelSpeed")]
    [InlineData(", \"reelSpeed\": \"2200 rev/min\"", "", "name.missing", "/mowing/0")]
    [InlineData(" \"sheet\": \"reel-a\",", "", "value.contradiction", "/mowing")]
    public void Read_OrderWithOneThingWrong_IsToldWhereItStands(
        string right,
        string wrong,
        string code,
        string pointer
    ) => Assert.Contains((code, pointer), Problems(SettingOrderFormat.Current, Order, right, wrong));

    [Theory]
    [InlineData("\"0.004 mm/h\"", "\"0.004 mm\"", "text.pattern", "/wear/reelPerHour")]
    [InlineData("\"0.004 mm/h\"", "\"4 mm/h\"", "value.unreadable", "/wear/reelPerHour")]
    [InlineData("\"30 deg\"", "\"90 deg\"", "value.unreadable", "/wear/reliefAngle")]
    [InlineData("\"30 deg\"", "\"0 deg\"", "value.unreadable", "/wear/reliefAngle")]
    [InlineData("\"rearRollerDiameter\"", "\"backRollerDiameter\"", "name.unknown", "/backRollerDiameter")]
    public void Read_SheetWithOneThingWrong_IsToldWhereItStands(
        string right,
        string wrong,
        string code,
        string pointer
    ) => Assert.Contains((code, pointer), Problems(LimitSheetFormat.Current, Sheet, right, wrong));

    private static IEnumerable<(string Code, string Pointer)> Problems<T>(
        DocumentFormat<T> format,
        string text,
        string right,
        string wrong
    )
        where T : notnull
    {
        Assert.Contains(right, text, StringComparison.Ordinal);
        var changed = text.Replace(right, wrong, StringComparison.Ordinal);
        Assert.False(format.Read(Encoding.UTF8.GetBytes(changed)).TryGet(out _, out var problems));
        return problems.Told.Select(problem => (problem.Code, problem.Pointer));
    }
}
