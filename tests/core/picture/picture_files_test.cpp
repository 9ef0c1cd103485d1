#include <gtest/gtest.h>
#include <png.h>
#include <zlib.h>

#include <clocale>
#include <cstdlib>
#include <fstream>

#include "tests/core/picture/picture_tools.h"
#include "tests/support/temp_folder.h"

namespace swingroom {
namespace {

using namespace picture_tools;

Image noise(int width, int height) {
  std::mt19937 random(3);
  Image image{width, height, {}};
  for (int i = 0; i < width * height; ++i) {
    const auto bits = static_cast<std::uint32_t>(random());
    image.pixels.push_back({static_cast<std::uint8_t>(bits), static_cast<std::uint8_t>(bits >> 8),
                            static_cast<std::uint8_t>(bits >> 16)});
  }
  return image;
}

/// By libpng.
Image decoded(const std::string& png) {
  png_image header{};
  header.version = PNG_IMAGE_VERSION;
  EXPECT_NE(png_image_begin_read_from_memory(&header, png.data(), png.size()), 0) << header.message;
  header.format = PNG_FORMAT_RGB;
  Image image{static_cast<int>(header.width), static_cast<int>(header.height), {}};
  image.pixels.resize(std::size_t{header.width} * header.height);
  EXPECT_NE(png_image_finish_read(&header, nullptr, image.pixels.data(), 0, nullptr), 0)
      << header.message;
  return image;
}

std::uint32_t bigEndian(const std::string& bytes, std::size_t at) {
  std::uint32_t value = 0;
  for (std::size_t i = 0; i < 4; ++i)
    value = value << 8 | static_cast<unsigned char>(bytes.at(at + i));
  return value;
}

TEST(Png, LibpngReadsTheSamePixelsBack) {
  for (const auto& [width, height] : {std::pair(1, 1), std::pair(37, 23), std::pair(640, 3)}) {
    const Image image = noise(width, height);
    EXPECT_EQ(decoded(toPng(image)), image);
  }
}

// ISO/IEC 15948 clauses 5.2, 5.3: signature, then length, type, data and CRC of each chunk.
TEST(Png, HasTheSignatureAndEachChunkItsCheckSumAndNoTime) {
  const std::string png = toPng(noise(31, 17));
  ASSERT_EQ(png.substr(0, 8), "\x89PNG\r\n\x1a\n");
  std::string types;
  for (std::size_t at = 8; at < png.size();) {
    const std::uint32_t length = bigEndian(png, at);
    types += png.substr(at + 4, 4) + " ";
    const auto* data = reinterpret_cast<const Bytef*>(png.data() + at + 4);
    EXPECT_EQ(crc32(crc32(0, nullptr, 0), data, length + 4), bigEndian(png, at + 8 + length));
    at += length + 12;
  }
  EXPECT_EQ(types.substr(0, 5), "IHDR ");
  EXPECT_EQ(types.substr(types.size() - 5), "IEND ");
  EXPECT_EQ(types.find("tIME"), std::string::npos);
  EXPECT_EQ(types.find("tEXt"), std::string::npos);
}

TEST(Png, AFlatPictureIsSmall) {
  EXPECT_LT(toPng({640, 480, std::vector<Rgb>(640 * 480, kPaper)}).size(), 4000u);
}

TEST(Png, PixelsThatAreNotWidthTimesHeightAreAWrongCall) {
  EXPECT_THROW(toPng({}), std::invalid_argument);
  EXPECT_THROW(toPng({2, 2, std::vector<Rgb>(3)}), std::invalid_argument);
  EXPECT_THROW(toPng({-1, -1, std::vector<Rgb>(1)}), std::invalid_argument);
}

Picture labelledPicture() {
  Picture picture;
  picture.image = noise(64, 48);
  picture.labels.push_back({{10, 10}, {40.25, 10}, "a<b> & \"c\" 'd' \x01 M\xC3\xBCller"});
  picture.dimensions.push_back(
      {{Eigen::Vector2d(5, 5), Eigen::Vector2d(50, 40)}, {30, 30}, "0.30 mm"});
  picture.dimensions.push_back(
      {{Eigen::Vector2d(5, 5), Eigen::Vector2d(5, 5)}, {30, 12}, "0.00 mm"});
  return picture;
}

TEST(Svg, IsWellFormedWhateverTheWordsAre) {
  if (std::system("xmllint --version > /dev/null 2>&1") != 0)
    GTEST_SKIP() << "xmllint is not installed";
  const TempFolder folder;
  const auto file =
      folder.write("picture.svg", toSvg(labelledPicture(), "</title><script>&amp; ]]>"));
  EXPECT_EQ(std::system(("xmllint --noout --nonet '" + file.string() + "'").c_str()), 0);
}

TEST(Svg, ScalesIsNamedForAScreenReaderAndHoldsThePictureAndItsWords) {
  const std::string svg = toSvg(labelledPicture(), "Lid & box");
  EXPECT_EQ(svg.rfind("<svg ", 0), 0u);
  for (const char* part :
       {"viewBox=\"0 0 64 48\"", "width=\"100%\"", "role=\"img\"", "<title>Lid &amp; box</title>",
        "href=\"data:image/png;base64,iVBORw0KGgo", "Inter, system-ui, sans-serif", "#20242A",
        ">0.30 mm</text>", "a&lt;b&gt; &amp; &quot;c&quot; &#39;d&#39;", "M\xC3\xBCller"}) {
    EXPECT_NE(svg.find(part), std::string::npos) << part;
  }
}

// RFC 4648: the picture inside is the PNG itself.
TEST(Svg, TheDataInsideDecodesToThePng) {
  const Picture picture = labelledPicture();
  const std::string svg = toSvg(picture, "t");
  const std::string start = "base64,";
  const std::size_t from = svg.find(start) + start.size();
  const TempFolder folder;
  const auto file = folder.write("picture.b64", svg.substr(from, svg.find('"', from) - from));
  const auto png = folder.path() / "picture.png";
  ASSERT_EQ(std::system(("base64 -d '" + file.string() + "' > '" + png.string() + "'").c_str()), 0);
  std::ifstream in(png, std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(in), {}};
  EXPECT_EQ(bytes, toPng(picture.image));
}

TEST(Svg, NumbersHaveAPointInEveryLocale) {
  const std::string before = toSvg(labelledPicture(), "t");
  EXPECT_NE(before.find("40.2"), std::string::npos);
  const char* found = std::setlocale(LC_ALL, "de_DE.UTF-8");
  const std::string after = toSvg(labelledPicture(), "t");
  std::setlocale(LC_ALL, "C");
  EXPECT_EQ(after, before) << (found ? found : "no other locale here: nothing was tried");
}

}  // namespace
}  // namespace swingroom
