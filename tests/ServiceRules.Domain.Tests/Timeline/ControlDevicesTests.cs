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
    [InlineData("kill switch", true)]
    [InlineData("killswitch", true)]
    [InlineData("Kill-Button", true)]
    [InlineData("remote stop", true)]
    [InlineData("stop control at the seat", true)]
    [InlineData("wireless pendant", true)]
    [InlineData("e-stop", true)]
    [InlineData("battery kill switch", false)]
    [InlineData("fuel stop valve", false)]
    [InlineData("stopcock", false)]
    [InlineData("stop tap", false)]
    [InlineData("master switch", false)]
    [InlineData("PTO lever", false)]
    public void IsControlDevice_AnySpelling_TellsWhatKeepsNoEnergyOut(string isolator, bool expected) =>
        Assert.Equal(expected, ControlDevices.IsControlDevice(isolator));

    [Theory]
    // Words of a control alone.
    [InlineData("PTO lever", true)]
    [InlineData("joystick lock", true)]
    [InlineData("lock-out screen", true)]
    [InlineData("operator presence cut-out", true)]
    [InlineData("operator_presence_cutout", true)]
    [InlineData("starter relay fuse", true)]
    [InlineData("key turned off", true)]
    // Named as a stop and as what isolates.
    [InlineData("battery kill switch", true)]
    [InlineData("remote battery disconnect", true)]
    [InlineData("remote stop valve", true)]
    // What isolates, by any honest name, whatever moves it.
    [InlineData("battery disconnect lever", false)]
    [InlineData("PTO circuit valve", false)]
    [InlineData("key-operated isolator", false)]
    [InlineData("ignition lead", false)]
    [InlineData("fuel stop valve", false)]
    [InlineData("stop tap", false)]
    [InlineData("stopcock", false)]
    [InlineData("master switch", false)]
    [InlineData("main switch", false)]
    [InlineData("main fuse", false)]
    [InlineData("appliance inlet", false)]
    [InlineData("", false)]
    // Shown to be none, not only by its words.
    [InlineData("kill switch", false)]
    [InlineData("key", false)]
    public void MayBeControlDevice_ByItsWords(string isolator, bool expected) =>
        Assert.Equal(expected, ControlDevices.MayBeControlDevice(isolator));
}
