using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Checking;

/// <summary>Speeds of a setting order and rates of a sheet name what is there.</summary>
public class MowingRegisterTests
{
    [Fact]
    public void Of_SpeedsForASheetThatIsNotThere_TellsIt() =>
        Assert.Equal(
            [(DiagnosticCode.UnknownSheet, "/mowing/0/sheet")],
            Told(
                SoundLibrary.With(Mown(new(SoundLibrary.Order.Targets[0].Area, "sheet-b", Walking, Turning)))
            )
        );

    [Fact]
    public void Of_SpeedsForAnAreaWithoutATarget_TellsIt() =>
        Assert.Equal(
            [(DiagnosticCode.UnknownArea, "/mowing/0/area")],
            Told(SoundLibrary.With(Mown(new("nowhere", null, Walking, Turning))))
        );

    [Fact]
    public void Of_SpeedsForWhatIsThere_TellsNothing() =>
        Assert.Empty(
            Told(
                SoundLibrary.With(Mown(new(SoundLibrary.Order.Targets[0].Area, "sheet-a", Walking, Turning)))
            )
        );

    [Fact]
    public void Of_PublishedRatesWithoutASource_TellsIt() =>
        Assert.Equal(
            [(DiagnosticCode.NoSource, "/wear/basis")],
            Told(
                SoundLibrary.With(
                    SoundLibrary.Sheet with
                    {
                        Wear = new() { Basis = new(BasisKind.Published, null, null) },
                    }
                )
            )
        );

    private static Speed Walking => Speed.Parse("4 km/h").OrThrow();

    private static RotationRate Turning => RotationRate.Parse("2200 rev/min").OrThrow();

    private static SettingOrder Mown(AreaMowing mowing) => SoundLibrary.Order with { Mowing = [mowing] };

    private static IEnumerable<(string Code, string Pointer)> Told(RuleLibrary library) =>
        PackCheck.Of(library).Select(one => (one.Code, one.Pointer));
}
