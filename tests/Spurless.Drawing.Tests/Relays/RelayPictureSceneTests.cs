using Spurless.Circuits.Relays;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Relays;
using Spurless.Tests.Common;

namespace Spurless.Drawing.Tests.Relays;

public class RelayPictureSceneTests
{
    // Over early and late in the press, going back soon and late after it; times in seconds.
    public static TheoryData<double, double, double> Presses => new()
    {
        { 0.00456, 0.014, 0.0189 }, { 0.0025, 0.014, 0.030 }, { 0.009, 0.014, 0.016 }, { 0.0015, 0.1, 0.105 },
    };

    [Theory]
    [MemberData(nameof(Presses))]
    public void Draw_no_word_lies_on_another_and_no_upright_goes_through_one(double over, double off, double back)
    {
        foreach (double width in (double[])[300, 358, 499, 500, 640, 812])
        {
            Scene scene = RelayPictureScene.Draw(Model(over, off, back), width);
            SceneChecks.NoTextMeetsAnother(scene);
            SceneChecks.AllInside(scene);
            Assert.Empty(SceneGeometry.Collisions(scene, "stem"));

            // An upright for the beginning, the end and each change, over every row.
            int each = width < 500 ? 5 : 1;
            Assert.Equal(4 * each, scene.Items.OfType<ScenePath>().Count(static p => SceneGeometry.Wears(p, "stem")));
        }
    }

    private static RelayPictureModel Model(double over, double off, double back) => new()
    {
        Title = "A press of the key (invented)",
        Description = "Invented figures.",
        Moments =
        [
            .. Enumerable.Range(0, 400).Select(i => i * back * 1.2 / 399).Select(
                t => new RelayMoment(t, t < off ? 70 : 0, t < off ? 68 : 0, t < off ? 0.0024 : 0, t < off ? 0.037 : 0.001)),
        ],
        Changes = [new ContactChange(over, true), new ContactChange(back, false)],
        OnS = off,
        OperatesA = 0.02625,
        ReleasesA = 0.00375,
    };
}
