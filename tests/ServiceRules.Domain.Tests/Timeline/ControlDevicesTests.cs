using ServiceRules.Domain.Timeline;

namespace ServiceRules.Domain.Tests.Timeline;

/// <summary>29 CFR 1910.147(b): push buttons, selector switches and other control-circuit devices isolate nothing.</summary>
public class ControlDevicesTests
{
    [Theory]
    [InlineData("stop_button", true)]
    [InlineData("Stop button", true)]
    [InlineData("KEY-SWITCH", true)]
    [InlineData("selector", true)]
    [InlineData("selector switch", true)]
    [InlineData("seat_switch", true)]
    [InlineData("hour-meter fob", true)]
    [InlineData("push_button", true)]
    [InlineData("start button", true)]
    [InlineData("Emergency stop", true)]
    [InlineData("ignition_key", true)]
    [InlineData("key", true)]
    [InlineData("battery_disconnect", false)]
    [InlineData("reel circuit valve", false)]
    [InlineData("plug", false)]
    [InlineData("", false)]
    public void IsControlDevice_AnySpelling_TellsWhatKeepsNoEnergyOut(string isolator, bool expected) =>
        Assert.Equal(expected, ControlDevices.IsControlDevice(isolator));
}
