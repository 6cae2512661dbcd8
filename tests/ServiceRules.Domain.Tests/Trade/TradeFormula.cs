using System.Text.Json;

namespace ServiceRules.Domain.Tests.Trade;

/// <summary>The worked examples of tests/reference/turf/formulas.json, held to the digits that they print.</summary>
internal sealed class TradeFormula
{
    private readonly JsonElement example;

    private TradeFormula(JsonElement formula) => example = formula.GetProperty("worked_example");

    public static TradeFormula Named(string id) =>
        new(ReferenceCases.In("turf", "formulas.json", "formulas").Named(id));

    public decimal Given(string name) => example.GetProperty("inputs").GetProperty(name).GetDecimal();

    public IReadOnlyList<decimal> GivenList(string name) =>
        List(example.GetProperty("inputs").GetProperty(name));

    public JsonElement GivenRaw(string name) => example.GetProperty("inputs").GetProperty(name);

    public decimal Result(string name) => example.GetProperty("result").GetProperty(name).GetDecimal();

    public IReadOnlyList<decimal> Results(string name) =>
        List(example.GetProperty("result").GetProperty(name));

    /// <summary>Rounds to the printed figure: its trailing zeros count as no digits.</summary>
    public void Prints(string name, decimal computed) => Same(Result(name), computed);

    public void Print(string name, IEnumerable<decimal> computed)
    {
        var printed = Results(name);
        var all = computed.ToList();
        Assert.Equal(printed.Count, all.Count);
        for (var index = 0; index < all.Count; index++)
        {
            Same(printed[index], all[index]);
        }
    }

    private static void Same(decimal printed, decimal computed)
    {
        var digits = (printed / 1.0000000000000000000000000000m).Scale;
        Assert.Equal(printed, Math.Round(computed, digits, MidpointRounding.AwayFromZero));
    }

    private static IReadOnlyList<decimal> List(JsonElement list) =>
        [.. list.EnumerateArray().Select(each => each.GetDecimal())];
}
