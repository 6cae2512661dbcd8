using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Tests.Quantities;

public sealed class TemperatureTests
{
    [Theory]
    [InlineData("24 degC", 24)]
    [InlineData("24.50 degC", 24.5)]
    [InlineData("-5 degC", -5)]
    [InlineData("68 degF", 20)]
    [InlineData("5 degF", -15)]
    [InlineData("50 degC", 50)]
    [InlineData("-20 degC", -20)]
    public void Parse_ATemperature_KeepsItsPrintAndItsValue(string text, decimal celsius)
    {
        var temperature = Temperature.Parse(text).OrThrow();

        Assert.Equal(celsius, temperature.DegreesCelsius);
        Assert.Equal(text, temperature.ToString());
    }

    [Theory]
    [InlineData("24")]
    [InlineData("24 C")]
    [InlineData("50.1 degC")]
    [InlineData("-20.1 degC")]
    [InlineData("-5 degF")]
    [InlineData("hot degC")]
    public void Parse_AnythingElse_IsRefusedWithWhatIsAccepted(string text)
    {
        Assert.False(Temperature.Parse(text).TryGet(out _, out var failure));
        Assert.Equal(Temperature.AcceptedForms, failure.Accepted);
    }

    [Fact]
    public void Equals_TheSameTemperatureInOtherUnits_IsTheSame()
    {
        var celsius = Temperature.Parse("20 degC").OrThrow();
        var fahrenheit = Temperature.Parse("68.0 degF").OrThrow();

        Assert.Equal(celsius, fahrenheit);
        Assert.Equal(celsius.GetHashCode(), fahrenheit.GetHashCode());
        Assert.True(celsius <= fahrenheit && celsius >= fahrenheit && !(celsius < fahrenheit));
        Assert.True(Temperature.Parse("70 degF").OrThrow() > celsius);
    }
}
